import { expect, test } from 'vitest'
import { thresholdOf } from '../../../src/facts/disease/threshold.ts'
import { openLedger } from '../../../src/ledger/read/open.ts'
import { makeLedger, SITE } from '../../ledger/make.ts'

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
    of: 'incidence',
    source: 'varieties/palava.yaml',
  })
})

test('a block comes before its variety, and the source of a default is named', () => {
  const block = `${SITE['blocks/upper.yaml']}thresholds: { powdery: 2 % }\n`
  expect(of({ 'vineyard.yaml': site, 'varieties/palava.yaml': variety, 'blocks/upper.yaml': block })).toEqual(
    { share: 0.02, of: 'incidence', source: 'blocks/upper.yaml' },
  )
  expect(of({})).toMatchObject({ share: 0.03, source: expect.stringContaining('Gubler') })
})

test('only bunches have a default; leaves have none unless the grower sets one', () => {
  const ledger = openLedger(makeLedger(), { seasons: 'all' })
  const asked = { block: 'upper', disease: 'downy' } as const
  expect(thresholdOf(ledger, { ...asked, organ: 'bunches' }).share).toBe(0.05)
  expect(thresholdOf(ledger, { ...asked, organ: 'leaves' }).share).toBeNull()
})

test('the defaults for bunches, with their source', () => {
  const ledger = openLedger(makeLedger(), { seasons: 'all' })
  const bunches = (disease: 'botrytis' | 'black-rot' | 'phomopsis') =>
    thresholdOf(ledger, { block: 'upper', disease, organ: 'bunches' })
  expect(bunches('botrytis')).toEqual({
    share: 0.03,
    of: 'severity',
    source: 'Aust. J. Grape Wine Res. 2024, 6630039: usual limit of wineries, as mean severity',
  })
  for (const disease of ['black-rot', 'phomopsis'] as const)
    expect(bunches(disease)).toEqual({
      share: 0.05,
      of: 'incidence',
      source: 'common practice, no source',
    })
})

test('for a block without a record the vineyard decides, and where nobody sets one it says so', () => {
  const ledger = openLedger(makeLedger({ 'vineyard.yaml': site }), { seasons: 'all' })
  const asked = { block: 'nowhere', disease: 'powdery', organ: 'leaves' } as const
  expect(thresholdOf(ledger, asked)).toEqual({ share: 0.1, of: 'incidence', source: 'vineyard.yaml' })
  expect(thresholdOf(ledger, { ...asked, block: 'upper', disease: 'downy' })).toEqual({
    share: null,
    of: 'incidence',
    source: 'the ledger names none, and there is no default for leaves',
  })
})

test('a threshold for another organ does not apply', () => {
  const block = `${SITE['blocks/upper.yaml']}thresholds: { powdery-leaves: 20 %, powdery-bunches: 0 % }\n`
  const ledger = openLedger(makeLedger({ 'blocks/upper.yaml': block }), { seasons: 'all' })
  const share = (organ: 'bunches' | 'leaves' | 'shoots') =>
    thresholdOf(ledger, { block: 'upper', disease: 'powdery', organ }).share
  expect([share('bunches'), share('leaves'), share('shoots')]).toEqual([0, 0.2, null])
})
