import { describe, expect, test } from 'vitest'
import { copperWindow } from '../../../src/agronomy/spraying/copper-window.ts'

const every = (from: number, to: number, copper: number) =>
  new Map(Array.from({ length: to - from + 1 }, (_, index) => [from + index, copper]))
const ask = { year: 2026, limit: 28, years: 7 }

test('seven years at 4 kg are at the limit, not over it', () => {
  expect(copperWindow({ ...ask, perYear: every(2018, 2026, 4) })).toMatchObject({
    from: 2020,
    to: 2026,
    sum: 28,
    room: 0,
    over: 0,
    unknown: [],
  })
})

test('a gram more is over', () => {
  const got = copperWindow({ ...ask, perYear: every(2020, 2026, 4).set(2026, 4.001) })
  expect(got.over).toBeCloseTo(0.001, 9)
  expect(got.room).toBe(0)
})

test('binary fractions alone are not over', () => {
  const got = copperWindow({ perYear: every(2024, 2026, 0.1), year: 2026, limit: 0.3, years: 3 })
  expect(got.sum).toBeGreaterThan(0.3)
  expect(got.over).toBe(0)
})

test('the year before the window does not count, its first year does', () => {
  expect(
    copperWindow({
      ...ask,
      perYear: new Map([
        [2019, 9],
        [2020, 1],
      ]),
    }).sum,
  ).toBe(1)
})

test('later years do not count', () => {
  expect(
    copperWindow({
      ...ask,
      perYear: new Map([
        [2026, 1],
        [2027, 9],
      ]),
    }).sum,
  ).toBe(1)
})

test('years without a record are listed, a recorded zero is known', () => {
  const got = copperWindow({
    ...ask,
    perYear: new Map([
      [2022, 3],
      [2024, 0],
      [2026, 2],
    ]),
  })
  expect(got).toMatchObject({
    sum: 5,
    known: [2022, 2024, 2026],
    unknown: [2020, 2021, 2023, 2025],
    room: 23,
  })
})

test('no known year gives no sum, not zero', () => {
  expect(copperWindow({ ...ask, perYear: new Map() })).toMatchObject({ sum: null, room: null, over: null })
})

describe('fixed block', () => {
  const block = (year: number) => {
    const { from, to } = copperWindow({ ...ask, year, perYear: every(2010, 2040, 1), blockStart: 2019 })
    return [from, to]
  }
  test('starts anew after its last year, and runs before its start too', () => {
    expect(block(2019)).toEqual([2019, 2019])
    expect(block(2025)).toEqual([2019, 2025])
    expect(block(2026)).toEqual([2026, 2026])
    expect(block(2018)).toEqual([2012, 2018])
  })
})

test('refuses half years, negative copper and no limit', () => {
  expect(() => copperWindow({ ...ask, year: 2026.5, perYear: new Map() })).toThrow('whole years')
  expect(() => copperWindow({ ...ask, years: 0, perYear: new Map() })).toThrow(RangeError)
  expect(() => copperWindow({ ...ask, perYear: new Map([[2026, -1]]) })).toThrow('copper of 2026')
  expect(() => copperWindow({ ...ask, limit: Number.NaN, perYear: new Map() })).toThrow(RangeError)
})
