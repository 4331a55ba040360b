import { expect, test } from 'vitest'
import { treatmentFrequency } from '../../../src/agronomy/spraying/treatment-frequency.ts'

test('nothing sprayed is an index of 0', () => {
  expect(treatmentFrequency([])).toEqual({ index: 0, withoutReference: 0 })
})

test('half the block at full dose counts a half', () => {
  expect(treatmentFrequency([{ dose: 2, referenceDose: 2, share: 0.5 }]).index).toBe(0.5)
})

test('each product of a mixture counts', () => {
  const one = { dose: 2, referenceDose: 2, share: 1 }
  expect(treatmentFrequency([one, one]).index).toBe(2)
})

test('without a reference dose a treatment counts 1 and is told', () => {
  expect(treatmentFrequency([{ dose: 9, referenceDose: null, share: 0.3 }])).toEqual({
    index: 1,
    withoutReference: 1,
  })
})

test('refuses a reference dose of nothing and a share above 1', () => {
  expect(() => treatmentFrequency([{ dose: 1, referenceDose: 0, share: 1 }])).toThrow(RangeError)
  expect(() => treatmentFrequency([{ dose: 1, referenceDose: 1, share: 1.1 }])).toThrow(RangeError)
  expect(() => treatmentFrequency([{ dose: -1, referenceDose: 1, share: 1 }])).toThrow(RangeError)
})
