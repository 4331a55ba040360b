import { expect, test } from 'vitest'
import {
  applicationIntervals,
  earliestNextApplication,
} from '../../../src/agronomy/spraying/application-interval.ts'
import { earliestHarvest } from '../../../src/agronomy/spraying/harvest-interval.ts'

test('without an end time the cautious reading is a day later', () => {
  expect(earliestHarvest({ day: 100, days: 21 })).toEqual({
    calendar: 121,
    cautious: { day: 122, hour: 0 },
    differ: true,
  })
})

test('with an end time it is the same hour of the calendar day', () => {
  expect(earliestHarvest({ day: 100, days: 21, endHour: 18.5 })).toEqual({
    calendar: 121,
    cautious: { day: 121, hour: 18.5 },
    differ: false,
  })
})

test('a spray that ended at midnight counts as the end of its day', () => {
  expect(earliestHarvest({ day: 100, days: 1, endHour: 24 }).cautious).toEqual({ day: 102, hour: 0 })
  expect(earliestHarvest({ day: 100, days: 1, endHour: 0 }).cautious).toEqual({ day: 101, hour: 0 })
})

test('no days to wait, and part of a day', () => {
  expect(earliestHarvest({ day: 100, days: 0 })).toMatchObject({
    calendar: 100,
    cautious: { day: 101, hour: 0 },
  })
  expect(earliestHarvest({ day: 100, days: 0.5, endHour: 18 })).toMatchObject({
    calendar: 101,
    cautious: { day: 101, hour: 6 },
  })
})

test('refuses half day numbers, negative waits and hours of no day', () => {
  expect(() => earliestHarvest({ day: 100.5, days: 21 })).toThrow(RangeError)
  expect(() => earliestHarvest({ day: 100, days: -1 })).toThrow(RangeError)
  expect(() => earliestHarvest({ day: 100, days: 1, endHour: 24.1 })).toThrow('an hour from 0 to 24')
  expect(() => earliestHarvest({ day: 100, days: 1, endHour: -0.1 })).toThrow('an hour from 0 to 24')
  expect(() => earliestHarvest({ day: 100.5, days: 1 })).toThrow('a whole day number')
  expect(() => earliestHarvest({ day: 100, days: 1, endHour: Number.NaN })).toThrow(RangeError)
})

test('intervals run from each application to the next, in whatever order they are listed', () => {
  expect(applicationIntervals([30, 10, 17])).toEqual([7, 13])
  expect(applicationIntervals([10, 10])).toEqual([0])
  expect(applicationIntervals([10])).toEqual([])
  expect(applicationIntervals([])).toEqual([])
  expect(() => applicationIntervals([1.5])).toThrow(RangeError)
})

test('the next application is due no sooner than the whole interval', () => {
  expect(earliestNextApplication({ day: 10, interval: 7 })).toBe(17)
  expect(earliestNextApplication({ day: 10, interval: 6.5 })).toBe(17)
  expect(() => earliestNextApplication({ day: 10, interval: -7 })).toThrow(RangeError)
})

test.each([1.5, Number.NaN, Number.POSITIVE_INFINITY])('a day of %d is refused', (day) => {
  expect(() => earliestNextApplication({ day, interval: 7 })).toThrow(/whole day number/)
  expect(() => applicationIntervals([1, day])).toThrow(/whole day numbers/)
})
