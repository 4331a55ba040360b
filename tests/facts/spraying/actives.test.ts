import { expect, test } from 'vitest'
import {
  activeOf,
  contentOf,
  holdsCopper,
  holdsSulphur,
  isCopper,
} from '../../../src/facts/spraying/actives.ts'
import { label } from '../../rules/limits/both-sides.ts'
import { applied, bookOf } from '../book.ts'

const product = (actives: string) =>
  bookOf('', { 'seasons/2026/sprays.yaml': null, 'products/extra.yaml': label({ actives }) }).products.get(
    'extra',
  )!

test('a content is in g/kg or g/L; 1 % is 10 of them', () => {
  const contents = (actives: string) => product(actives).actives.map(contentOf)
  expect(contents('{ name: a, content: 350 g/kg }, { name: b, content: 250 g/L }')).toEqual([350, 250])
  expect(contents('{ name: a, content: 35 % }, { name: b }')).toEqual([350, null])
})

test('copper and sulphur are recognised by group or by name, in upper or lower case', () => {
  const of = (active: string) => {
    const { actives } = product(active)
    return [isCopper(actives[0]!), holdsSulphur({ actives })]
  }
  expect(of('{ name: Kupferhydroxid, group: M01 }')).toEqual([true, false])
  expect(of('{ name: Netzschwefel, group: M02 }')).toEqual([false, true])
  expect(of('{ name: Copper hydroxide }')).toEqual([true, false])
  expect(of('{ name: Bordeaux mixture }')).toEqual([true, false])
  expect(of('{ name: Lime sulphur }')).toEqual([false, true])
  expect(of('{ name: sulfur, group: "3" }')).toEqual([false, true])
  expect(of('{ name: coppery }')).toEqual([false, false])
})

test('a product contains copper or sulphur where one of its actives is copper or sulphur', () => {
  const mixed = product('{ name: testazole, group: "3" }, { name: copper }')
  expect([holdsCopper(mixed), holdsSulphur(mixed)]).toEqual([true, false])
  const dust = product('{ name: sulphur }, { name: testazole, group: "3" }')
  expect([holdsCopper(dust), holdsSulphur(dust)]).toEqual([false, true])
  expect(holdsCopper(product('{ name: testazole, group: "3" }'))).toBe(false)
})

const onBlock = (actives: string, dose = 'rate: 2 kg/ha', more?: string, block?: string) =>
  applied([`product: extra, ${dose}`], more, block, { 'products/extra.yaml': label({ actives }) }).map(
    (one) => activeOf(one, one.product.actives[0]!),
  )

// 2 kg/ha on the 0.4 ha of the block.
test('an active on a block: dose times area times content; for a copper compound the metal only', () => {
  expect(onBlock('{ name: testazole, content: 100 g/kg }')).toEqual([0.08])
  expect(onBlock('{ name: copper hydroxide, content: 500 g/kg }')).toEqual([0.4])
  expect(onBlock('{ name: copper hydroxide, content: 500 g/kg, as: metal }')).toEqual([0.4])
  // Cu 63.546 of Cu(OH)2 97.56: 65.1 %.
  expect(onBlock('{ name: copper hydroxide, content: 500 g/kg, as: compound }')[0]).toBeCloseTo(0.2605, 4)
  expect(onBlock('{ name: copper oxychloride, content: 500 g/kg, as: compound }')[0]).toBeCloseTo(0.23804, 4)
})

test('an active is unknown without its content, its compound or its dose', () => {
  expect(onBlock('{ name: testazole }')).toEqual([null])
  expect(onBlock('{ name: copper, content: 500 g/kg, as: compound }')).toEqual([null])
  expect(onBlock('{ name: testazole, content: 100 g/kg }', 'amount: 2 kg', 'rows: 1-4', 'wide')).toEqual([
    null,
  ])
})

// Metal by the formula of each compound, 0.4 kg of it on the block; unknown for a name without a fixed share.
test.each([
  ['Copper Oxychloride', 0.5951],
  ['cuprous oxide', 0.8882],
  ['copper (I) oxide', 0.8882],
  ['copper oxide', 0.8882],
  ['tribasic copper sulphate', 0.562],
  ['copper sulphate pentahydrate', 0.2545],
  ['copper octanoate', 0.1816],
  ['Bordeaux mixture', null],
  ['dioxidecopper', null],
])('%s holds %s of copper', (name, share) => {
  const [got] = onBlock(`{ name: ${name}, group: M01, content: 500 g/kg, as: compound }`)
  if (share === null) expect(got).toBeNull()
  else expect(got! / 0.4).toBeCloseTo(share, 4)
})
