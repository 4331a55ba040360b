import { describe, expect, test } from 'vitest'
import { openLedger } from '../../../src/ledger/read/open.ts'
import { label } from '../../../src/reports/label/report.ts'
import { makeLedger, SITE } from '../../ledger/make.ts'

function review(change: (text: string) => string, asOf: string) {
  const ledger = openLedger(makeLedger({ 'products/sulphur.yaml': change(SITE['products/sulphur.yaml']!) }), {
    seasons: [2026],
  })
  expect(ledger.findings).toEqual([])
  const { data } = label({ ledger, season: 2026, asOf, blocks: [] })
  return data.products.find(({ product }) => product === 'sulphur')!
}
const dated = (text: string) => (record: string) =>
  record.replace('label: placeholder, 2026-01', `label: ${text}`)
const until = (day: string) => (record: string) => record.replace('until: 2029-12-31', `until: ${day}`)

describe('read more than a year ago', () => {
  test.each([
    ['printed label, 2025-11-25', '2026-11-25', false],
    ['printed label, 2025-11-25', '2026-11-26', true],
    ['printed label, 2025-11', '2026-11-01', false],
    ['printed label, 2025-11', '2026-11-02', true],
    ['read 2024-03, again 2026-05-02', '2026-11-25', false],
    ['leap day 2024-02-29', '2025-03-01', false],
    ['leap day 2024-02-29', '2025-03-02', true],
    ['PLACEHOLDER, no label was read', '2026-11-25', null],
  ])('%s, looked at on %s: %s', (text, asOf, old) => {
    expect(review(dated(text), asOf).old).toBe(old)
  })

  test('what is no date of the calendar is none', () => {
    expect(review(dated('lot 2025-13, sheet 2025-02-30'), '2026-11-25').old).toBeNull()
    const none = (record: string) => record.replace(/^label: .*\n/m, '')
    expect(review(none, '2026-11-25').old).toBeNull()
  })
})

describe('authorisation', () => {
  test.each([
    ['2026-12-31', '2026-10-01', 'sound', 91],
    ['2026-12-31', '2026-10-02', 'lapses', 90],
    ['2026-12-31', '2026-12-31', 'lapses', 0],
    ['2026-12-31', '2027-01-01', 'lapsed', -1],
  ])('until %s, looked at on %s: %s', (day, asOf, state, left) => {
    const full = (record: string) => `${until(day)(record)}max_in_row: 3\n`
    expect(review(full, asOf)).toMatchObject({ state, daysLeft: left })
  })
})

describe('what the record lacks', () => {
  test.each([
    ['before_harvest', 'before_harvest: 21 d\n'],
    ['re_entry', 're_entry: 24 h\n'],
    ['authorisation.number', 'number: T-1, '],
    ['authorisation.until', ', until: 2029-12-31'],
    ['actives.content', 'content: 800 g/kg, '],
    ['actives.group', ', group: M02'],
    ['uses.interval', ', interval: 7-14 d'],
    ['max_per_season', 'max_per_season: 8\n'],
    ['water', 'water: 150-1000 L/ha\n'],
    ['protects', 'protects: 10 d\n'],
  ])('%s', (key, text) => {
    expect(review((record) => record, '2026-06-01').missing).toEqual([])
    const lacking = review((record) => record.replace(text, ''), '2026-06-01')
    expect([lacking.missing.map((gap) => gap.key), lacking.state]).toEqual([[key], 'incomplete'])
  })

  test('a single-site product lacks its limit in a row', () => {
    expect(
      review((record) => record.replace('M02', '40'), '2026-06-01').missing.map(({ key }) => key),
    ).toEqual(['max_in_row'])
  })
})
