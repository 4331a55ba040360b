import { expect, test } from 'vitest'
import { targetOf } from '../../../src/facts/ripeness/targets.ts'
import type { Ledger, Named } from '../../../src/ledger/read/ledger.ts'
import type { Block } from '../../../src/records/kinds/block.ts'

const range = (low: number, high: number) => ({ low, high, unit: '' })
const ledgerWith = (variety: object) =>
  ({ varieties: new Map([['invented', { name: 'Invented', ...variety }]]) }) as unknown as Ledger
const block = (fields: object) => ({ id: 'b', variety: 'invented', ...fields }) as unknown as Named<Block>

test.each([
  ['a target of the block comes first', { targets: { brix: range(19, 20) }, style: 'red' }, {}, 19],
  [
    'a target of the variety before the rule of thumb for its wine',
    { style: 'red' },
    { targets: { brix: range(19, 21) } },
    19,
  ],
  [
    'base wine for sparkling is not picked by the variety’s still target',
    { style: 'sparkling' },
    { targets: { brix: range(20, 22) } },
    16,
  ],
  ['the rule of thumb where nothing else is written', { style: 'white' }, {}, 20],
  ['the style of the variety where the block has none', {}, { style: 'red' }, 22],
])('sugar: %s', (_, written, variety, low) => {
  expect(targetOf(ledgerWith(variety), block(written), 'brix')?.low).toBe(low)
})

test('without a target or a style there is no target', () => {
  expect(targetOf(ledgerWith({}), block({}), 'brix')).toBeNull()
})

test('acid by the style of the block comes before a target of the variety', () => {
  const variety = { targets: { ta: range(6, 7) } }
  expect(targetOf(ledgerWith(variety), block({ style: 'sparkling' }), 'ta')?.low).toBe(8)
})
