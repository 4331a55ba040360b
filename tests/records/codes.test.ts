import { describe, expect, test } from 'vitest'
import { formulationCode, normalGroup } from '../../src/records/fields/label-codes.ts'
import { GROWTH_STAGES, nearestStage } from '../../src/records/growth-stage.ts'
import { product } from '../../src/records/kinds/product.ts'
import { sample } from '../../src/records/kinds/sample.ts'

test.each([
  ['M2', 'M02'], ['M02', 'M02'], ['U8', '50'], ['44', 'BM02'], ['P7', 'P07'], ['33', 'P07'], ['U6', 'U06'], ['3', '3'], ['FRAC 11', '11'], ['bm02', 'BM02'], ['nc', 'NC'],
])('group %s is %s', (typed, code) => expect(normalGroup(typed)).toBe(code)) // biome-ignore format: a table

test.each([
  ['WDG', 'WG'],
  ['DF', 'WG'],
  ['wg', 'WG'],
  ['E', 'EC'],
  ['FL', 'SC'],
  ['powder', null],
])('form %s is %s', (typed, code) => {
  expect(formulationCode(typed)).toBe(code)
})

test('the BBCH scale of the grapevine jumps from leaves to flower clusters', () => {
  expect([20, 31, 48].some((code) => GROWTH_STAGES.has(code))).toBe(false)
  expect(GROWTH_STAGES.has(65) && GROWTH_STAGES.has(81)).toBe(true)
  expect(nearestStage(82)).toBe(81)
  expect(nearestStage(173)).toBe(99)
})

describe('yes, no and prices', () => {
  const of = (entry: Record<string, unknown>) =>
    sample().safeParse({ date: '2026-09-01', block: 'upper', brix: 20, ...entry })

  test.each([
    ['yes', true],
    [true, true],
    ['no', false],
    [false, false],
  ])('%s is %s', (fermenting, is) => expect(of({ fermenting }).data).toMatchObject({ fermenting: is }))
  test('a word that is neither yes nor no is refused, not taken as no', () =>
    expect(of({ fermenting: 'maybe' }).error?.issues[0]?.message).toBe('`maybe` is neither true nor false'))
  test.each([
    [null, 'the value is missing'],
    [{ a: 1 }, '`{"a":1}` is neither true nor false'],
  ])('%j in place of yes or no', (fermenting, message) =>
    expect(of({ fermenting }).error?.issues[0]?.message).toBe(message),
  )
  test('a price without a value is missing', () => {
    const issues = product().safeParse({ price: null }).error?.issues ?? []
    expect(issues.find(({ path }) => path[0] === 'price')?.message).toBe('the value is missing')
  })
})
