import { expect, test } from 'vitest'
import {
  mixingRank,
  WATER_CONDITIONER_RANK,
  WETTER_RANK,
} from '../../../src/agronomy/spraying/mixing-order.ts'

/** The codes of CropLife International, Technical Monograph 2, 7th edition, 2017, that a record may give. */
const CODES =
  'AE AL CS DC DP EC EG EO EP EW GL GR GW ME OD OF OL PA RB SC SE SG SL SO SP ST SU TB TC TK UL VP WG WP WT XX ZC ZE ZW'.split(
    ' ',
  )

test.each([
  ['SG', 2],
  ['SP', 2],
  ['ST', 2],
  ['WG', 3],
  ['WP', 3],
  ['WT', 3],
  ['SC', 4],
  ['CS', 4],
  ['ZC', 4],
  ['SE', 4],
  ['ZE', 4],
  ['OD', 5],
  ['EW', 5],
  ['ME', 5],
  ['EC', 5],
  ['DC', 5],
  ['SL', 6],
])('%s goes in at rank %i', (code, rank) => {
  expect(mixingRank(code).rank).toBe(rank)
})

test('water conditioner comes before and wetter after every code', () => {
  for (const code of CODES) {
    const { rank } = mixingRank(code)
    if (rank === null) continue
    expect(rank).toBeGreaterThan(WATER_CONDITIONER_RANK)
    expect(rank).toBeLessThan(WETTER_RANK)
  }
})

test.each(['DP', 'GR', 'AL', 'UL', 'AE', 'DS', 'FS', 'OL', 'TC'])('%s never goes into a tank', (code) => {
  expect(mixingRank(code)).toMatchObject({ rank: null, disagreement: null })
  expect(mixingRank(code).reason).toMatch(/^never in a tank: /)
})

test.each(['ZW', 'GL', 'XX', 'nonsense', '', '__proto__'])('%s is placed by nobody', (code) => {
  expect(mixingRank(code).rank).toBeNull()
  expect(mixingRank(code).reason).toContain('see the label')
})

test('every code of the records has a place or a reason', () => {
  for (const code of CODES) expect(mixingRank(code).reason).not.toBe('')
})

test('where the published orders differ, it is said', () => {
  expect(mixingRank('SL').disagreement).toContain('Oklahoma')
  expect(mixingRank('SP').disagreement).toContain('North Dakota')
  expect(mixingRank('ME').disagreement).toContain('micro-encapsulated')
  expect(mixingRank('SC').disagreement).toBeNull()
})

test('small letters and blanks do not matter', () => {
  expect(mixingRank(' wg ').rank).toBe(3)
})
