import { expect, test } from 'vitest'
import { fillShortOutages } from '../../../src/facts/heat/window.ts'

const day = (min: number, max = min + 10) => ({ min, max })

test('an outage of up to three days is interpolated', () => {
  expect(fillShortOutages([day(10), null, null, null, day(14)])).toEqual(
    [10, 11, 12, 13, 14].map((min) => day(min)),
  )
})
test('four days, and days without a neighbour, are not interpolated', () => {
  for (const days of [
    [day(10), null, null, null, null, day(14)],
    [null, day(10)],
    [day(10), null],
  ])
    expect(fillShortOutages(days)).toEqual(days)
})
