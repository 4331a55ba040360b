import { expect, test } from 'vitest'
import { mixCommand } from '../../../src/facts/danger/mix-command.ts'
import { type Files, inputOf } from './book.ts'

const spray = (date: string, blocks: string, dose: string, more = 'water: 300 L/ha, sprayer: mounted') =>
  `- { date: ${date}, blocks: [${blocks}], ${more}, products: [ { product: sulphur, ${dose}, for: powdery } ] }\n`

const command = (sprays: string[], blocks: string[], files: Files = {}) =>
  mixCommand(inputOf({ 'seasons/2026/sprays.yaml': sprays.join(''), ...files }), {
    blocks,
    products: ['sulphur'],
    diseases: ['powdery'],
  })

test('after a dose over the label, the usual dose within it is proposed, from the same block first', () => {
  const usual = [spray('2026-05-20', 'upper', 'rate: 3 kg/ha'), spray('2026-05-21', 'lower', 'rate: 4 kg/ha')]
  const over = spray('2026-06-10', 'lower', 'rate: 30 kg/ha')
  expect(command([...usual, over], ['upper'])).toContain('"sulphur=3 kg/ha"')
  expect(command([...usual, over], ['lower'])).toContain('"sulphur=4 kg/ha"')
  expect(command([usual[1]!, over], ['upper'])).toContain('"sulphur=4 kg/ha"')
  expect(command([over], ['upper'])).toContain('"sulphur=6 kg/ha"')
})

test('water and sprayer are those of the last whole spray of most blocks', () => {
  const knapsack = { 'sprayers/knapsack.yaml': 'name: Knapsack\ntank: 15 L\n' }
  const both = spray('2026-05-20', 'upper, lower', 'rate: 3 kg/ha')
  const some = spray('2026-06-01', 'lower', 'rate: 3 kg/ha', 'rows: 1-3, water: 450 L/ha, sprayer: knapsack')
  expect(command([both, some], ['lower'], knapsack)).toMatch(/--water "300 L\/ha" --sprayer mounted$/)
  expect(command([some], ['lower'], knapsack)).toMatch(/--water "450 L\/ha" --sprayer knapsack$/)
})

test('a concentration is proposed as last used, and never above the limit of the label per ground area', () => {
  const product = (more: string) => ({
    'products/sulphur.yaml': `name: Test sulphur\nform: WG\nkind: fungicide\nactives: [ { name: sulphur, group: M02 } ]\nuses: [ { against: powdery, concentration: 4-12 g/L${more} } ]\n`,
  })
  const past = spray('2026-05-20', 'upper', 'concentration: 8 g/L')
  expect(command([past], ['upper'], product(''))).toContain('"sulphur=8 g/L"')
  expect(command([past], ['upper'], product(', max_rate: 1.8 kg/ha'))).toContain('"sulphur=6 g/L"')
})
