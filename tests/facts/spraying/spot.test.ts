import fc from 'fast-check'
import { expect, test } from 'vitest'
import { copperOf } from '../../../src/facts/spraying/copper.ts'
import { dosesOver } from '../../../src/facts/spraying/over-label.ts'
import { label } from '../../rules/limits/both-sides.ts'
import { applied } from '../book.ts'

const COPPER = { actives: '{ name: copper hydroxide, content: 500 g/kg, group: M01 }' }
const spot = (more: string, dose = 'concentration: 8 g/L', use = {}) =>
  applied([`product: extra, ${dose}`], `method: spot, water: 3 L${more}`, 'upper', {
    'products/extra.yaml': label({ ...COPPER, ...use }),
  })[0]!

test('a spot spray without its extent has an amount and copper, but nothing per hectare', () => {
  const one = spot('')
  expect(one).toMatchObject({ perHa: null, share: null, total: { unit: 'kg' }, waterPerHa: null })
  expect(one.total!.value).toBeCloseTo(0.024, 9)
  // 24 g with half copper, on a block of 0.4 ha.
  expect(copperOf(one)).toBeCloseTo(0.012 / 0.4, 9)
})

test('the area of vines follows from the spacings of the block', () =>
  expect(spot(', vines: 12').share).toBeCloseTo((12 * 2) / 4000, 12))

test('it is compared with the concentration of the label in the minimum water', () => {
  const use = { use: 'rate: 2-6 kg/ha', more: 'water: 400-1000 L/ha\n' }
  // 6 kg in 400 L are 15 g/L.
  expect(dosesOver(spot('', 'concentration: 15 g/L', use))).toEqual([])
  expect(dosesOver(spot('', 'concentration: 15.1 g/L', use))).toHaveLength(1)
})

test('a spot spray adds copper for the part it treated, and never more than for the whole block', () => {
  fc.assert(
    fc.property(fc.integer({ min: 1, max: 2000 }), (vines) => {
      const part = spot(`, vines: ${vines}`, 'rate: 2 kg/ha')
      const whole = spot(', share: 100 %', 'rate: 2 kg/ha')
      expect(copperOf(part)!).toBeCloseTo(copperOf(whole)! * part.share!, 9)
      expect(copperOf(part)!).toBeLessThanOrEqual(copperOf(whole)! + 1e-12)
    }),
    { numRuns: 30 },
  )
})
