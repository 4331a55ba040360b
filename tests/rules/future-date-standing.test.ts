import { expect, test } from 'vitest'
import { openLedger } from '../../src/ledger/read/open.ts'
import { findingsOf } from '../../src/rules/rule.ts'
import { futureDate } from '../../src/rules/slips/dates.ts'
import { makeLedger, SITE } from '../ledger/make.ts'

const found = (files: Record<string, string>, asOf: string) => {
  const ledger = openLedger(makeLedger(files), { seasons: 'all' })
  expect(ledger.findings).toEqual([])
  return findingsOf(futureDate, { ledger, asOf, seasons: new Set() }).map(({ name, file, level }) => [
    name,
    file,
    level,
  ])
}

test('a stock counted or a sprayer calibrated on a day that is still to come', () => {
  const files = { 'products/sulphur.yaml': `${SITE['products/sulphur.yaml']}stocked: 2026-05-02\n` }
  expect(found(files, '2026-05-02')).toEqual([])
  expect(found(files, '2026-05-01')).toEqual([['future-date', 'products/sulphur.yaml', 'warning']])
  expect(found({}, '2026-03-31')).toEqual([['future-date', 'sprayers/mounted.yaml', 'warning']])
})

test('a threshold for no known disease and a group that is none are refused', () => {
  const names = (files: Record<string, string>) =>
    openLedger(makeLedger(files), { seasons: 'all' }).findings.map(({ name, line, help }) => [
      name,
      line,
      help,
    ])
  expect(names({ 'vineyard.yaml': `${SITE['vineyard.yaml']}thresholds: { powdrey: 5 % }\n` })).toEqual([
    ['unknown-key', 5, 'did you mean `powdery`?'],
  ])
  const group = (text: string) =>
    names({ 'products/sulphur.yaml': SITE['products/sulphur.yaml']!.replace('M02', text) }).map(
      ([name]) => name,
    )
  expect(['M02', '3', 'M2', '44', 'FRAC 11', '4A', 'BM02', 'U12', 'NC', 'B'].flatMap(group)).toEqual([])
  expect(['0', '400', '"3 11"', '???'].map((text) => group(text)[0])).toEqual(
    Array.from({ length: 4 }, () => 'not-a-group'),
  )
})
