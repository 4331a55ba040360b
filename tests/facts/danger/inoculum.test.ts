import { describe, expect, test } from 'vitest'
import { dangerJudge } from '../../../src/facts/danger/danger.ts'
import { type Files, inputOf, judged, STAGES, stage, WEATHER, walk, weather } from './book.ts'

const BLOOM = stage('2026-05-10', 13) + stage('2026-06-05', 57) + stage('2026-06-14', 65)
const SITE = (more: string) =>
  `name: Test vineyard\nlatitude: 51.5\nlongitude: 0\ntimezone: Europe/Berlin\n${more}`

const on = (
  files: Files,
  disease: 'powdery' | 'downy' | 'botrytis' | 'phomopsis' | 'black-rot',
  date: string,
) => dangerJudge(inputOf(files, date)).on('upper', disease, date)

/** A file with one row a day from 1 April to 30 June. */
const daily = (max: number, rain: number) =>
  `date,min_c,max_c,rain_mm\n${Array.from({ length: 91 }, (_, at) => {
    const date = new Date(Date.UTC(2026, 3, 1 + at)).toISOString().slice(0, 10)
    return `${date},${max - 10},${max},${rain}`
  }).join('\n')}\n`

describe('one row a day', () => {
  test.each([
    [26, 0],
    [18, 0],
    [22, 9],
  ])(
    'a highest of %d °C and %d mm a day: what goes by hours is never low, and says what is missing',
    (max, rain) => {
      const files = { [WEATHER]: daily(max, rain), [STAGES]: BLOOM }
      for (const disease of ['powdery', 'botrytis'] as const) {
        const danger = on(files, disease, '2026-06-18')
        expect(danger.level).not.toBe('low')
        expect(danger.unknown.some((what) => what.endsWith('needs hourly weather'))).toBe(true)
      }
    },
  )

  test('says how often it was warm, and how much it rained', () => {
    const files = { [WEATHER]: daily(22, 9), [STAGES]: BLOOM }
    expect(on(files, 'powdery', '2026-06-18').reasons).toContain('7 of 7 days reached 21 °C')
    expect(on(files, 'botrytis', '2026-06-18').reasons).toContain('rain on 7 of 7 days, 63 mm altogether')
    const trace = { [WEATHER]: daily(22, 0.05), [STAGES]: BLOOM }
    expect(on(trace, 'botrytis', '2026-06-18').reasons).toContain(
      'rain on 7 of 7 days, under 1 mm altogether',
    )
  })
})

describe('what overwintered', () => {
  const late = (round: string) => ({ 'seasons/2025/scouting.yaml': round.replaceAll('2026', '2025') })
  const files = { [WEATHER]: weather(), [STAGES]: BLOOM }

  test('a find of the last round before winter is a reason, but does not change the class', () => {
    const found = { ...files, ...late(walk('2026-09-05', 'powdery: { bunches: 9 }')) }
    const danger = on(found, 'powdery', '2026-06-18')
    expect(danger.reasons).toContain('found here at the end of last season, 5 Sep 2025')
    expect(danger.level).toBe(on(files, 'powdery', '2026-06-18').level)
    const clean = late(
      walk('2026-09-05', 'powdery: { bunches: 9 }') + walk('2026-09-20', 'powdery: { bunches: 0 }'),
    )
    expect(on({ ...files, ...clean }, 'powdery', '2026-06-18').reasons.join()).not.toContain('last season')
  })
})

describe('phomopsis', () => {
  const site = { 'vineyard.yaml': SITE('diseases: [powdery, phomopsis]\n') }
  const wet = weather((date, hour) =>
    date === '2026-05-20' && hour < 14 ? { warm: 14, humid: 98, rain: 1, wet: 60 } : {},
  )

  test('judged only where the site names it: wet young shoots are moderate, dry ones unknown, never low', () => {
    const files = { [STAGES]: stage('2026-05-10', 15) }
    expect(on({ ...files, ...site, [WEATHER]: wet }, 'phomopsis', '2026-05-21')).toMatchObject({
      level: 'moderate',
      reasons: [expect.stringContaining('shoots wet for 14 h'), expect.anything()],
    })
    expect(on({ ...files, ...site, [WEATHER]: weather() }, 'phomopsis', '2026-05-21').level).toBe('unknown')
    expect(on({ ...files, [WEATHER]: wet }, 'phomopsis', '2026-05-21').reasons).toEqual([
      'phomopsis is not known here',
    ])
  })
})

test('reasons are in the units of the ledger', () => {
  const rain = weather((date, hour) =>
    date === '2026-06-17' && hour >= 6 && hour < 20 ? { warm: 16, humid: 98, rain: 1.2, wet: 60 } : {},
  )
  const files = { [WEATHER]: rain, [STAGES]: BLOOM }
  const us = { ...files, 'vineyard.yaml': SITE('units: us\n') }
  const [metric] = judged(files, ['2026-06-18'], '2026-06-18')
  const [book] = judged(us, ['2026-06-18'], '2026-06-18')
  expect(metric!.downy.reasons.join()).toMatch(/10\.8 mm within 24 h.*10 °C/)
  expect(book!.downy.reasons.join()).toMatch(/0\.43 in within 24 h.*50 °F/)
  expect(book!.botrytis.reasons.join()).toContain('h wet at 61 °F')
  expect(JSON.stringify(book)).not.toMatch(/\d mm|\d °C/)
})
