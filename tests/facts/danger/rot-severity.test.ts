import { expect, test } from 'vitest'
import { dangerJudge } from '../../../src/facts/danger/danger.ts'
import { findSentence, followUps } from '../../../src/facts/danger/follow-up.ts'
import { scouting } from '../../../src/reports/scouting/report.ts'
import { type Files, inputOf, STAGES, stage, WALKS, WEATHER, walk, weather } from './book.ts'

const LAST = '2026-07-20'

/** The follow-up to botrytis on bunches of the block Upper, by the default threshold: 3 % of the surface. */
function rot(found: string, files: Files = {}) {
  const grown = {
    [STAGES]: stage('2026-06-14', 65) + stage('2026-07-16', 79),
    [WEATHER]: weather(undefined, LAST),
  }
  const input = inputOf({ ...grown, [WALKS]: walk('2026-07-18', `botrytis: { ${found} }`), ...files })
  const judge = dangerJudge(input)
  const [one] = followUps(input, judge).filter(({ disease }) => disease === 'botrytis')
  const [state] = scouting(input).data.states
  return {
    act: one!.act,
    said: findSentence(one!),
    level: judge.on('upper', 'botrytis', LAST).level,
    verdict: state!.verdict,
  }
}

test('a severity threshold is compared with severity, not with the share of bunches', () => {
  expect(rot('bunches: 20, severity: 0.5 %')).toMatchObject({ act: false, verdict: 'under' })
  const over = rot('bunches: 20, severity: 4 %')
  expect(over).toMatchObject({ act: true, level: 'high', verdict: 'over' })
  expect(over.said).toContain('4 % of the surface, over the threshold of 3 %')
})

test('where severity was not scored, it says that it may be over', () => {
  const open = rot('bunches: 20')
  expect(open).toMatchObject({ act: true, level: 'high', verdict: 'near' })
  expect(open.said).toContain('severity not scored: it may be over 3 % of the surface')
  expect(rot('bunches: 2')).toMatchObject({ act: false })
})

test('a threshold written by the grower is a share of bunches', () => {
  const site = 'name: Test Rows\nlatitude: 51.5\ntimezone: Europe/Berlin\nthresholds: { botrytis: 10 % }\n'
  const own = rot('bunches: 20, severity: 0.5 %', { 'vineyard.yaml': site })
  expect(own).toMatchObject({ act: true, verdict: 'over' })
  expect(own.said).toMatch(/over the threshold of 10 %$/)
})
