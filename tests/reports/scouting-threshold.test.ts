import { expect, test } from 'vitest'
import { openLedger } from '../../src/ledger/open.ts'
import { thresholdOf } from '../../src/reports/scouting-threshold.ts'
import { makeLedger } from '../ledger/make.ts'

const of = (files: Record<string, string>) =>
  thresholdOf(openLedger(makeLedger(files), { seasons: 'all' }), {
    block: 'upper',
    disease: 'powdery',
    organ: 'bunches',
  })
const site = 'name: T\nlatitude: 50\ntimezone: Europe/Berlin\nthresholds: { powdery: 10 % }\n'
const variety = 'name: S\ncolour: white\nthresholds: { powdery-bunches: 6 %, powdery: 7 % }\n'

test('the variety comes before the site, and the organ before the disease alone', () => {
  const { vineyard, ...rest } = { vineyard: site, solaris: variety }
  expect(of({ 'vineyard.yaml': vineyard }).share).toBeCloseTo(0.1)
  expect(of({ 'vineyard.yaml': vineyard, 'varieties/palava.yaml': rest.solaris })).toEqual({
    share: 0.06,
    source: 'varieties/palava.yaml',
  })
})
