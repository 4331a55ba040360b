import { expect, test } from 'vitest'
import { mixCommand } from '../../../src/facts/danger/mix-command.ts'
import { remediesFor } from '../../../src/facts/danger/remedies.ts'
import type { Disease } from '../../../src/records/disease.ts'
import { SITE } from '../../ledger/make.ts'
import { type Files, inputOf } from './book.ts'

const SPRAYS = 'seasons/2026/sprays.yaml'
const spray = (date: string, product: string, dose: string) =>
  `- { date: ${date}, blocks: [upper], water: 300 L/ha, products: [ { product: ${product}, ${dose} } ] }\n`
const site = (limits: string) => ({
  'vineyard.yaml': `${SITE['vineyard.yaml']}limits: { copper: { ${limits} } }\n`,
})

/** What is in the shed against a disease on 20 July, and the command that mixes the product. */
function shed(files: Files, disease: Disease, product: string) {
  const input = inputOf(files)
  const remedies = remediesFor(input, {
    block: 'upper',
    disease,
    date: input.asOf,
    picking: null,
    stage: null,
  })
  return {
    order: remedies.map((one) => one.product),
    one: remedies.find((one) => one.product === product)!,
    command: mixCommand(input, { blocks: ['upper'], products: [product], diseases: [disease] }),
  }
}

test.each([
  ['a season', 'per_season: 1 kg/ha', 'kg/ha of copper used this season, of 1 kg/ha'],
  [
    'years',
    'per_season: 4 kg/ha, rolling: 1 kg/ha, years: 7',
    'kg/ha of copper used in 2020-2026, of 1 kg/ha',
  ],
])(
  'copper is proposed only as far as the limit of %s leaves the lowest dose of the label',
  (_, limits, said) => {
    const first = spray('2026-06-01', 'copper', 'rate: 2 kg/ha')
    const some = shed({ ...site(limits), [SPRAYS]: first }, 'downy', 'copper')
    expect(some.one.may).toBe(true)
    // 0.3 kg of copper is left, in a product with 350 g/kg.
    expect(some.command).toContain('"copper=0.857 kg/ha"')
    const more = first + spray('2026-06-15', 'copper', 'rate: 0.5 kg/ha')
    const none = shed({ ...site(limits), [SPRAYS]: more }, 'downy', 'copper')
    expect(none.one).toMatchObject({ may: false, against: [`0.875 ${said}`] })
    expect(shed({ [SPRAYS]: more }, 'downy', 'copper').one.may).toBe(true)
  },
)

test("a product is proposed only as far as its label's total for a season leaves the lowest dose", () => {
  const label = { 'products/sulphur.yaml': `${SITE['products/sulphur.yaml']}max_total: 10 kg/ha\n` }
  const used = (kilograms: number) => ({
    ...label,
    [SPRAYS]:
      spray('2026-06-01', 'sulphur', `rate: ${kilograms} kg/ha`) +
      spray('2026-06-15', 'sulphur', 'rate: 4 kg/ha'),
  })
  expect(shed(used(3.5), 'powdery', 'sulphur').command).toContain('"sulphur=2.5 kg/ha"')
  expect(shed(used(4.5), 'powdery', 'sulphur').one).toMatchObject({
    may: false,
    against: ['8.5 kg/ha used this season, of 10 kg/ha'],
  })
})

test('a group used as often as advised comes after products of other groups', () => {
  const conazole = {
    'products/conazole.yaml':
      'name: Conazole\nform: EC\nkind: fungicide\nactives: [ { name: tebuconazole, group: 3 } ]\nuses: [ { against: powdery, rate: 0.4 L/ha } ]\n',
  }
  const dose = 'rate: 0.4 L/ha, for: powdery'
  const once = spray('2026-06-01', 'conazole', dose)
  const before = shed({ ...conazole, [SPRAYS]: once }, 'powdery', 'conazole')
  expect(before.order).toEqual(['conazole', 'sulphur'])
  const after = shed(
    { ...conazole, [SPRAYS]: once + spray('2026-06-20', 'conazole', dose) },
    'powdery',
    'conazole',
  )
  expect(after.order).toEqual(['sulphur', 'conazole'])
  expect(after.one.may).toBe(true)
  expect(after.one.facts).toContain('group 3 used as often as advised, take another group')
})
