import { expect, test } from 'vitest'
import { mayShareTank } from '../../../src/facts/spraying/keep-apart.ts'
import { ledgerOf } from '../../ledger/in-memory.ts'

const product = (active: string, more = '') =>
  `name: Test\nform: WG\nkind: fungicide\nactives: [ { name: ${active} } ]\nuses: [ { against: powdery, rate: 1-5 kg/ha } ]\n${more}`

const PRODUCTS = {
  'products/sulphur.yaml': product('sulphur, group: M02', 'keep_apart: [ { from: oil, gap: 14 d } ]\n'),
  'products/oil.yaml': product('mineral oil'),
  'products/salt.yaml': product('potassium bicarbonate, group: NC'),
  'products/phos.yaml': product('potassium phosphonates, group: P07'),
  'products/late.yaml': product('fenhexamid, group: 17', 'keep_apart: [ { from: copper, gap: 3 d } ]\n'),
}

test.each([
  ['a label that keeps oil away says nothing of copper', ['sulphur', 'copper'], true],
  ['sulphur and oil', ['sulphur', 'oil'], false],
  ['an oil goes alone', ['oil', 'copper'], false],
  ['copper frees with phosphonate', ['copper', 'phos'], false],
  ['bicarbonate foams with phosphonate', ['salt', 'phos'], false],
  ['a label that names copper', ['late', 'copper'], false],
  ['the same label with sulphur', ['late', 'sulphur'], true],
  ['three of which two do not go together', ['sulphur', 'salt', 'phos'], false],
])('%s: %j share a tank: %s', (_, ids, may) => {
  const { products, findings } = ledgerOf(PRODUCTS)
  expect(findings).toEqual([])
  expect(mayShareTank(ids.map((id) => products.get(id)!))).toBe(may)
  expect(mayShareTank(ids.toReversed().map((id) => products.get(id)!))).toBe(may)
})
