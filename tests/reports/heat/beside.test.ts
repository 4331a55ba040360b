import { expect, test } from 'vitest'
import { openLedger } from '../../../src/ledger/read/open.ts'
import { addDays } from '../../../src/records/date.ts'
import { heat } from '../../../src/reports/heat/report.ts'
import { runHere } from '../../faults/in-process.ts'
import { makeLedger } from '../../ledger/make.ts'

/** Days of 10 to 20 °C from 1 April, so many, without those named by their place. */
const weather = (year: number, count: number, without: number[] = []) =>
  [
    'date,min_c,max_c',
    ...Array.from({ length: count }, (_, at) => at)
      .filter((at) => !without.includes(at))
      .map((at) => `${addDays(`${year}-04-01`, at)},10,20`),
  ].join('\n')

function besideOf(files: Record<string, string>, asOf = '2026-05-30') {
  const ledger = openLedger(makeLedger(files), { seasons: 'all' })
  return heat({ ledger, season: 2026, asOf, blocks: [...ledger.blocks.values()] }).data
}

test('a season with a short outage compares as it would have without one', () => {
  const whole = besideOf({
    'seasons/2025/weather.csv': weather(2025, 200),
    'seasons/2026/weather.csv': weather(2026, 60),
  })
  const filled = besideOf({
    'seasons/2025/weather.csv': weather(2025, 200, [20, 21, 22]),
    'seasons/2026/weather.csv': weather(2026, 60, [30]),
  })
  expect(whole.beside).toMatchObject({ mean: 300, difference: 0, daysAhead: 0, why: null })
  expect(filled.beside).toMatchObject({
    mean: 300,
    difference: 0,
    daysAhead: 0,
    why: null,
    now: { sum: 300, filled: 1, missing: 0 },
    seasons: [{ season: 2025, sum: 300, filled: 3, missing: 0, used: true }],
  })
  // The sum of the known days stays what it is, and says what it lacks.
  expect(filled).toMatchObject({ sum: 295, missing: 1 })
  expect(filled.why).toContain('1 of 60 days')
})
test('a longer outage is not filled: it is said, and a season that lacks too much is left out', () => {
  const open = besideOf(
    {
      'seasons/2025/weather.csv': weather(2025, 214, [20, 21, 22, 23]),
      'seasons/2026/weather.csv': weather(2026, 183),
    },
    '2026-09-30',
  )
  expect(open.beside).toMatchObject({
    mean: 179 * 5,
    difference: 20,
    why: 'days unknown count as none in 2025',
    seasons: [{ filled: 0, missing: 4, used: true }],
  })
  const lost = besideOf({
    'seasons/2025/weather.csv': weather(2025, 214, [20, 21, 22, 23]),
    'seasons/2026/weather.csv': weather(2026, 60),
  })
  expect(lost.beside).toBeNull()
})
test('an outage at the end of the days compared has its neighbour behind them', () => {
  const { beside } = besideOf({
    'seasons/2025/weather.csv': weather(2025, 200, [59]),
    'seasons/2026/weather.csv': weather(2026, 60),
  })
  expect(beside).toMatchObject({ mean: 300, seasons: [{ filled: 1, missing: 0 }] })
})
test('since a stage counts to the end of a season that is over', () => {
  const { stages } = besideOf(
    {
      'seasons/2026/weather.csv': weather(2026, 214),
      'seasons/2026/stages.yaml': '- { date: 2026-10-01, block: upper, stage: 89 }\n',
    },
    '2027-03-01',
  )
  expect(stages).toMatchObject([{ days: 30, degreeDays: 150, missing: 0 }])
})

test('before the growing season heat says from when it counts, not that days are missing', async () => {
  const line = ['heat', '--ledger', 'examples/far-quillet', '--as-of', '2026-01-15']
  expect((await runHere(line, process.cwd())).out).toMatch(/^Degree days count from 1 Apr\.\n/)
})
