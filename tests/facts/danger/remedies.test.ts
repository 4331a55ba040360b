import { expect, test } from 'vitest'
import { findAdvice } from '../../../src/facts/danger/advice.ts'
import { dangerJudge } from '../../../src/facts/danger/danger.ts'
import { followUps } from '../../../src/facts/danger/follow-up.ts'
import { enoughFirst } from '../../../src/facts/danger/in-stock.ts'
import { remediesFor, shedText } from '../../../src/facts/danger/remedies.ts'
import { dayOf, type IsoDate } from '../../../src/records/date.ts'
import { SITE } from '../../ledger/make.ts'
import { type Files, inputOf, LAST, STAGES, stage, WALKS, walk } from './book.ts'

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

/** Products against powdery mildew, by id, in the order in which they are proposed. */
function proposed(files: Files, picking: IsoDate | null = null) {
  const input = inputOf(files)
  const all = remediesFor(input, {
    block: 'upper',
    disease: 'powdery',
    date: input.asOf,
    picking,
    stage: null,
  })
  return enoughFirst(input, all, { blocks: ['upper'], disease: 'powdery' })
}

const like = (name: string, change: (text: string) => string) => ({
  [`products/${name.toLowerCase()}.yaml`]: change(
    SITE['products/sulphur.yaml']!.replace('Test sulphur', name),
  ),
})

test('a product whose PHI is not recorded comes last once picking is in sight, and its label is to be read first', () => {
  const bare = like('Bare', (text) => text.replace('before_harvest: 21 d\n', ''))
  const order = (picking: IsoDate | null) => proposed(bare, picking).map(({ product }) => product)
  expect(order(null)).toEqual(['bare', 'sulphur'])
  expect(order('2026-09-01')).toEqual(['sulphur', 'bare'])
  const alone = proposed({ ...bare, 'products/sulphur.yaml': null }, '2026-09-01')
  expect(shedText(alone, 'powdery')).toMatch(/Bare \(PHI not recorded,.* read on its label first/)
  // Once the label rules the other out, the one that isn't known still says so.
  expect(proposed(bare, '2026-07-25').map(({ may, unread }) => [may, unread === null])).toEqual([
    [true, false],
    [false, true],
  ])
})

test('a product that is in stock in full comes before one that is short of what the spray needs', () => {
  const stocked = (name: string, stock: string) =>
    like(name, (text) => text.replace('stock: 100 kg', `stock: ${stock}`))
  const less = { ...stocked('Less', '2.3 kg'), 'products/sulphur.yaml': null }
  const [one] = proposed(less)
  expect(one).toMatchObject({ may: true, short: 'this spray needs 2.4 kg, more than is left' })
  expect(
    proposed({ ...less, ...stocked('More', '2.4 kg') }).map(({ product, short }) => [
      product,
      short === null,
    ]),
  ).toEqual([
    ['more', true],
    ['less', false],
  ])
  // Enough for the rows of a find is enough.
  const input = inputOf(less)
  const rows = { from: 1, to: 10 }
  expect(enoughFirst(input, [one!], { blocks: ['upper'], disease: 'powdery', rows })[0]!.short).toBeNull()
})

test('nothing is said to follow a treatment where nothing may be sprayed', () => {
  const advice = (sulphur: string | null) => {
    const input = inputOf({
      [STAGES]: stage('2026-06-10', 65),
      [WALKS]: walk('2026-07-18', 'powdery: { bunches: 20 }'),
      'products/sulphur.yaml': sulphur,
    })
    const judge = dangerJudge(input)
    const ones = followUps(input, judge).filter(({ block }) => block === 'upper')
    return findAdvice(ones, { input, judge, picking: null }).said.at(-1)
  }
  expect(advice(SITE['products/sulphur.yaml']!)).toBe('Scout again 7 days after treating.')
  expect(advice(null)).toBe('Scout again in 7 days.')
})
