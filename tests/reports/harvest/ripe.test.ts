import { expect, test } from 'vitest'
import { windowOf } from '../../../src/facts/window/block-window.ts'
import { windowText } from '../../../src/facts/window/sentences.ts'
import { openLedger } from '../../../src/ledger/read/open.ts'
import { addDays, daysBetween } from '../../../src/records/date.ts'
import { calendar } from '../../../src/reports/calendar/report.ts'
import { harvest } from '../../../src/reports/harvest/report.ts'
import { ready } from '../../../src/reports/ready/report.ts'
import { today } from '../../../src/reports/today/report.ts'
import { makeLedger } from '../../ledger/make.ts'

/** A block that nears its sugar while acid, which falls by so much a week, is far from its target. */
function input(acid: readonly number[]) {
  const samples = acid
    .map(
      (ta, week) =>
        `- { date: ${addDays('2026-08-18', 7 * week)}, block: upper, berries: 100, brix: ${15.2 + 1.4 * week}, ta: ${ta} g/L, ph: 3.1 }\n`,
    )
    .join('')
  const files = {
    'seasons/2026/samples.yaml': samples,
    'seasons/2026/work.yaml': '- { date: 2026-09-01, block: upper, job: not sprayed }\n',
    'seasons/2026/scouting.yaml':
      '- { date: 2026-09-09, block: upper, looked_at: { bunches: 100 }, found: { botrytis: { bunches: 0 } } }\n',
  }
  const ledger = openLedger(makeLedger(files), { seasons: 'all' })
  const blocks = [ledger.blocks.get('upper')!]
  return { ledger, season: 2026, asOf: '2026-09-10', blocks }
}

test('where acid comes after sugar, every report names the day of both, in the same words', () => {
  const late = input([15.5, 14.4, 13.4, 12.5])
  const window = windowOf(late.blocks[0]!, late)
  const [block] = harvest(late).data.blocks
  expect(block!.likely).toBe(window.likely)
  expect(block!.ripe).toBe(window.acid!.likely)
  expect(daysBetween(window.likely!, block!.ripe!)).toBeGreaterThan(7)
  expect(block!.ripe).toBe(ready(late).data.blocks[0]!.turns)
  const words = /acid falls to 9 g\/L later, about [A-Z][a-z]{2} \d+ (Sep|Oct|Nov)/
  const [said] = words.exec(windowText(window))!
  expect(block!.later).toContain(said)
  const item = today(late).data.items.find(({ what }) => what === 'window')!
  expect(item.text).toContain(said)
  expect(item.urgency).toBe('soon')
  expect(calendar(late).data.events.find(({ kind }) => kind === 'window')!.detail).toContain(said)
})

test('acid that is there by its last measure puts nothing off', () => {
  const there = input([10.6, 10, 9.4, 8.9])
  const window = windowOf(there.blocks[0]!, there)
  expect(window.acid!.reached).toBe(true)
  const [block] = harvest(there).data.blocks
  expect(block).toMatchObject({ ripe: window.likely, later: null })
  expect(windowText(window)).not.toContain('acid')
})

test('acid that is not likely to come within the horizon leaves no day, and is said', () => {
  const never = input([29, 28.9, 28.8, 28.7])
  const [block] = harvest(never).data.blocks
  expect(block!.ripe).toBeNull()
  expect(block!.later).toMatch(/acid falls to 9 g\/L later, not likely within 60 days$/)
})
