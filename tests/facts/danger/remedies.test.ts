import { expect, test } from 'vitest'
import { findAdvice } from '../../../src/facts/danger/advice.ts'
import { dangerJudge } from '../../../src/facts/danger/danger.ts'
import { followUps } from '../../../src/facts/danger/follow-up.ts'
import { remediesFor } from '../../../src/facts/danger/remedies.ts'
import { dayOf, type IsoDate } from '../../../src/records/date.ts'
import { inputOf, LAST, STAGES, stage, WALKS, walk } from './book.ts'

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

test('advice on a find tells of the heat in which sulphur burns, and then proposes no sulphur', () => {
  const input = inputOf({
    [STAGES]: stage('2026-06-10', 65),
    [WALKS]: walk('2026-07-18', 'powdery: { bunches: 20 }'),
  })
  const judge = dangerJudge(input)
  const ones = followUps(input, judge).filter(({ block }) => block === 'upper')
  const advice = (highest?: number) =>
    findAdvice(ones, {
      input,
      judge,
      picking: null,
      heatAhead: highest === undefined ? undefined : new Map([[dayOf(LAST), highest]]),
    })
  expect(advice().said.join(' ')).not.toContain('burns')
  expect(advice().spray?.products).toContain('sulphur')
  expect(advice(31).said.join(' ')).toContain('31 °C forecast for 20 Jul, sulphur burns in heat')
  expect(advice(40).spray?.products ?? []).not.toContain('sulphur')
})
