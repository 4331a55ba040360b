import { expect, test } from 'vitest'
import { checkNozzles, checkRate } from '../../../src/agronomy/spraying/nozzle-check.ts'

const oks = (flows: number[], tolerance?: number) =>
  checkNozzles(flows, tolerance).nozzles.map(({ ok }) => ok)

test('a nozzle exactly 10 % off the mean passes, one further off does not', () => {
  expect(oks([1.1, 0.9, 1, 1])).toEqual([true, true, true, true])
  expect(oks([1.101, 0.899, 1, 1])).toEqual([false, false, true, true])
})

test('the tolerance of a nozzle can be set', () => {
  expect(oks([1.05, 0.95], 0.05)).toEqual([true, true])
  expect(oks([1.05, 0.95], 0.049)).toEqual([false, false])
})

test('one nozzle is its own mean', () => {
  expect(checkNozzles([0.9])).toEqual({ mean: 0.9, nozzles: [{ flow: 0.9, deviation: 0, ok: true }] })
})

test('no nozzle, or one that gives nothing, is refused', () => {
  expect(() => checkNozzles([])).toThrow('at least 1 nozzle')
  expect(() => checkNozzles([1, 0])).toThrow('requires a positive nozzle flow, got 0')
  expect(() => checkNozzles([1], 2)).toThrow(RangeError)
})

test('a rate exactly 5 % off the wanted passes, one further off does not', () => {
  expect(checkRate({ actual: 315, wanted: 300 }).ok).toBe(true)
  expect(checkRate({ actual: 285, wanted: 300 }).ok).toBe(true)
  expect(checkRate({ actual: 315.1, wanted: 300 }).ok).toBe(false)
  expect(checkRate({ actual: 284.9, wanted: 300 }).ok).toBe(false)
  expect(checkRate({ actual: 315.1, wanted: 300, tolerance: 0.1 }).ok).toBe(true)
})

test('the deviation of a rate keeps its sign', () => {
  expect(checkRate({ actual: 270, wanted: 300 }).deviation).toBeCloseTo(-0.1, 12)
})

test('the deviation of a nozzle is a share of the mean', () => {
  const { mean, nozzles } = checkNozzles([2, 2, 2.6, 1.4])
  expect(mean).toBe(2)
  expect(nozzles.map(({ deviation, ok }) => [Number(deviation.toFixed(9)), ok])).toEqual([
    [0, true],
    [0, true],
    [0.3, false],
    [-0.3, false],
  ])
})
