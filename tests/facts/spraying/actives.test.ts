import { expect, test } from 'vitest'
import {
  activeOf,
  compoundOf,
  contentOf,
  holdsCopper,
  holdsSulphur,
  isCopper,
  isSulphur,
} from '../../../src/facts/spraying/actives.ts'
import { label } from '../../rules/limits/both-sides.ts'
import { applied, bookOf } from '../book.ts'

const product = (actives: string) =>
  bookOf('', { 'seasons/2026/sprays.yaml': null, 'products/extra.yaml': label({ actives }) }).products.get(
    'extra',
  )!

test('a content is one in g/kg or g/L, of which a percent is ten', () => {
  const contents = (actives: string) => product(actives).actives.map(contentOf)
  expect(contents('{ name: a, content: 350 g/kg }, { name: b, content: 250 g/L }')).toEqual([350, 250])
  expect(contents('{ name: a, content: 35 % }, { name: b }')).toEqual([350, null])
})

test('copper and sulphur are known by their group or by their name, in any case of letters', () => {
  const of = (actives: string) => product(actives).actives.map((one) => [isCopper(one), isSulphur(one)])
  expect(of('{ name: Kupferhydroxid, group: M01 }, { name: Netzschwefel, group: M02 }')).toEqual([
    [true, false],
    [false, true],
  ])
  expect(of('{ name: Copper hydroxide }, { name: Bordeaux mixture }')).toEqual([
    [true, false],
    [true, false],
  ])
  expect(of('{ name: Lime sulphur }, { name: sulfur, group: "3" }, { name: coppery }')).toEqual([
    [false, true],
    [false, true],
    [false, false],
  ])
})

test('a product holds copper or sulphur where one of its actives is it', () => {
  const mixed = product('{ name: testazole, group: "3" }, { name: copper }')
  expect([holdsCopper(mixed), holdsSulphur(mixed)]).toEqual([true, false])
  const dust = product('{ name: sulphur }, { name: testazole, group: "3" }')
  expect([holdsCopper(dust), holdsSulphur(dust)]).toEqual([false, true])
  expect(holdsCopper(product('{ name: testazole, group: "3" }'))).toBe(false)
})

test.each([
  ['copper hydroxide', 'hydroxide'],
  ['Copper Oxychloride', 'oxychloride'],
  ['cuprous oxide', 'copper(I) oxide'],
  ['copper (I) oxide', 'copper(I) oxide'],
  ['copper oxide', 'copper(I) oxide'],
  ['tribasic copper sulphate', 'tribasic sulphate'],
  ['copper sulphate pentahydrate', 'sulphate pentahydrate'],
  ['copper octanoate', 'octanoate'],
  ['copper', null],
  ['Bordeaux mixture', null],
  ['dioxidecopper', null],
])('%s is %s', (name, compound) => expect(compoundOf(name)).toBe(compound))

const onBlock = (actives: string, dose = 'rate: 2 kg/ha', more?: string, block?: string) =>
  applied([`product: extra, ${dose}`], more, block, { 'products/extra.yaml': label({ actives }) }).map(
    (one) => activeOf(one, one.product.actives[0]!),
  )

// 2 kg/ha on the 0.4 ha of the block.
test('an active on a block: dose times area times content, of a copper compound only its metal', () => {
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
