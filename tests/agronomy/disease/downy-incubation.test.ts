import fc from 'fast-check'
import { expect, test } from 'vitest'
import { downyIncubation } from '../../../src/agronomy/disease/downy-incubation.ts'
import { downyIncubationDays } from '../../../src/agronomy/disease/downy-incubation-days.ts'
import { oosporeRipeness } from '../../../src/agronomy/disease/oospore-ripeness.ts'

test('limits of the equations', () => {
  expect([9.9, 28.1].map((at) => downyIncubationDays(at, 'high'))).toEqual([null, null])
  expect([10, 28].map((at) => downyIncubationDays(at, 'low'))).not.toContain(null)
})

test('hours at one temperature end where the days say', () => {
  const hours = downyIncubation(new Array(240).fill(20), 24)
  // 5.3 d = 127.2 h and 6.9 d = 165.6 h: done within the 128th and the 166th hour.
  expect([hours.earliest.doneAt, hours.latest.doneAt]).toEqual([127, 165])
  expect(hours).toMatchObject({ missing: 0, outside: 0 })
})

test('incubation not yet done has no end', () => {
  expect(downyIncubation([20, 20], 1).earliest.doneAt).toBe(null)
  expect(downyIncubation([], 1)).toMatchObject({ earliest: { progress: [], doneAt: null }, missing: 0 })
})

test('a missing step adds nothing and is said', () => {
  const gappy = downyIncubation([20, null, 20], 1)
  expect(gappy.earliest.progress[1]).toBe(gappy.earliest.progress[0])
  expect(gappy).toMatchObject({ missing: 1 })
})

test('outside 10-28 °C the earliest goes on at the limit and the latest stands still', () => {
  const cold = downyIncubation([5], 1)
  expect(cold.earliest.progress[0]).toBeCloseTo(1 / downyIncubationDays(10, 'high')!)
  expect(cold.latest.progress[0]).toBe(0)
  expect(cold).toMatchObject({ outside: 1 })
})

test('earliest never ends after latest, and missing hours never bring the end forward', () => {
  const temperatures = fc.array(fc.integer({ min: 0, max: 35 }), { minLength: 20, maxLength: 40 })
  fc.assert(
    fc.property(temperatures, fc.nat(19), (known, gap) => {
      const whole = downyIncubation(known, 1)
      const gappy = downyIncubation(
        known.map((value, at) => (at === gap ? null : value)),
        1,
      )
      const end = (doneAt: number | null) => doneAt ?? Number.POSITIVE_INFINITY
      expect(end(whole.earliest.doneAt)).toBeLessThanOrEqual(end(whole.latest.doneAt))
      expect(end(gappy.earliest.doneAt)).toBeGreaterThanOrEqual(end(whole.earliest.doneAt))
    }),
  )
})

test('oospores ripen above 170 °C-days over 8 °C', () => {
  const days = (means: (number | null)[]) => oosporeRipeness(means.map((mean, day) => ({ day, mean })))
  const ripe = days([...new Array(17).fill(18), 4, 8.1])
  expect(ripe[16]).toMatchObject({ sum: 170, ripe: false })
  expect(ripe[17]).toMatchObject({ sum: 170, ripe: false })
  expect(ripe[18]).toMatchObject({ ripe: true, missingDays: 0 })
  expect(days([18, null])[1]).toEqual({ day: 1, sum: 10, ripe: null, missingDays: 1 })
})
