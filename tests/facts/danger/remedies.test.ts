import { expect, test } from 'vitest'
import { remediesFor } from '../../../src/facts/danger/remedies.ts'
import type { IsoDate } from '../../../src/records/date.ts'
import { inputOf } from './book.ts'

test('no spray is proposed before the day of entry set when a spray over the label was cleared', () => {
  const over =
    '- { date: 2026-06-01, time: 18:00-20:00, blocks: [upper], water: 300 L/ha, products: [ { product: sulphur, rate: 30 kg/ha, for: powdery } ], cleared: { on: 2026-06-03, by: R. Vos, pick_from: 2026-10-03, enter_from: 2026-06-25 } }\n'
  const on = (date: IsoDate, block = 'upper') =>
    remediesFor(inputOf({ 'seasons/2026/sprays.yaml': over }, date), {
      block,
      disease: 'powdery',
      date,
      picking: null,
      stage: null,
    }).find(({ product }) => product === 'sulphur')!
  expect(on('2026-06-20')).toMatchObject({
    may: false,
    against: ['nobody may enter before 25 Jun, as cleared'],
  })
  expect(on('2026-06-25').may).toBe(true)
  expect(on('2026-06-20', 'lower').may).toBe(true)
})
