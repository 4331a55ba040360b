import { expect, test } from 'vitest'
import { addDays } from '../../../src/records/date.ts'
import { cover } from '../../../src/reports/cover/report.ts'
import { type Files, inputOf, STAGES, stage, WALKS, WEATHER, walk, weather } from '../../facts/danger/book.ts'

const LAST = '2026-08-20'
const GROWN = stage('2026-06-01', 57) + stage('2026-06-10', 65) + stage('2026-07-20', 79)

/** A systemic whose label names an interval of 7 to 14 days, so that neither rain nor growth ends it before. */
const label = (more = '') => ({
  'products/long.yaml': `name: Long\nform: SC\nkind: fungicide\nactives: [ { name: mandipropamid, group: 40 } ]\nuses: [ { against: downy, rate: 0.4-0.6 L/ha, interval: 7-14 d } ]\nsystemic: yes\n${more}`,
})

/** Days after a spray for which the block Upper counts as protected against downy. */
function protectedDays(files: Files, sprayed = '2026-08-01') {
  const spray = `- { date: ${sprayed}, time: 18:00-19:00, blocks: [upper], water: 300 L/ha, products: [ { product: long, rate: 0.5 L/ha, for: downy } ] }\n`
  const input = inputOf(
    {
      ...label(),
      [STAGES]: GROWN,
      [WEATHER]: weather(undefined, LAST),
      'seasons/2026/sprays.yaml': spray,
      ...files,
    },
    LAST,
  )
  const [upper] = cover(input, { disease: 'downy' }).data.blocks.filter(({ block }) => block === 'upper')
  const last = upper!.days.findLast(({ covered }) => covered === true)!.date
  return [7, 10, 14].find((days) => addDays(sprayed, days) === last)
}

test('of an interval of 7 to 14 days the long end counts where little is at stake', () =>
  expect(protectedDays({})).toBe(14))

test('the short end counts from just before bloom to four weeks after', () => {
  expect(protectedDays({}, '2026-06-12')).toBe(7)
  expect(protectedDays({}, '2026-07-02')).toBe(7)
  expect(protectedDays({ [STAGES]: null }, '2026-06-12')).toBe(7)
})

test('and where a find makes the danger high', () => {
  const site = 'name: Test Rows\nlatitude: 51.5\ntimezone: Europe/Berlin\nthresholds: { downy: 10 % }\n'
  const found = { 'vineyard.yaml': site, [WALKS]: walk('2026-08-02', 'downy: { leaves: 30 }') }
  expect(protectedDays(found)).toBe(7)
})

test('days that the label itself says it protects stand', () =>
  expect(protectedDays(label('protects: 10 d\n'), '2026-06-12')).toBe(10))
