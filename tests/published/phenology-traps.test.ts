import { describe, expect, test } from 'vitest'
import { degreeDays, sumDegreeDays } from '../../src/agronomy/heat/degree-days.ts'
import { sugarRequirements } from '../../src/agronomy/heat/heat-requirements.ts'
import { huglinIndex } from '../../src/agronomy/heat/huglin.ts'
import { type PublishedRow, published } from './rows.ts'
import { vegaDays } from './vega-weather.ts'

/** What references/phenology.md warns of: variants that must not be mixed, and its second-hand tables in full. */

/** The sweet-corn variant: minimum raised to the base and maximum lowered to the cap before the mean is taken. */
const clipped = (
  min: number,
  max: number,
  { base, upper = Number.POSITIVE_INFINITY }: { base: number; upper?: number },
) => Math.max(0, (Math.max(min, base) + Math.min(Math.max(max, base), upper)) / 2 - base)

describe('variants of the day', () => {
  const april = vegaDays('Seattle', '2014-04-01', '2014-04-30')
  const plain = () =>
    sumDegreeDays(april.map((day) => degreeDays({ ...day, base: 10, method: 'average' }))).sum!

  test('S-13: the clipped mean gives 10 for 8 to 34 °C between 10 and 30, ours 11', () => {
    expect(clipped(8, 34, { base: 10, upper: 30 })).toBe(10)
    expect(degreeDays({ min: 8, max: 34, base: 10, method: 'average' })).toBe(11)
  })
  test('S-27: Seattle in April 2014 is 39.75; clipped it would be 81.90, and with negatives kept 32.85', () => {
    expect(plain()).toBeCloseTo(39.75, 6)
    expect(april.reduce((sum, { min, max }) => sum + clipped(min, max, { base: 10 }), 0)).toBeCloseTo(81.9, 6)
    expect(april.reduce((sum, { min, max }) => sum + (min + max) / 2 - 10, 0)).toBeCloseTo(32.85, 6)
  })
  test('the coefficient of Huglin goes by steps: at 47° it is 1.05, where the smoothed one is 1.042', () => {
    expect(huglinIndex({ days: april, latitude: 47 }).coefficient).toBe(1.05)
    expect(1 + (0.06 * (47 - 40)) / 10).toBeCloseTo(1.042, 9)
  })
  test('a horizontal cap is the difference of two lower thresholds', () => {
    for (const [min, max] of [
      [5, 38],
      [14, 36],
      [31, 40],
      [8, 34],
    ] as const) {
      const sine = (base: number, upper?: number) =>
        degreeDays({ min, max, base, ...(upper === undefined ? {} : { upper }), method: 'single-sine' })!
      expect(sine(10, 30)).toBeCloseTo(sine(10) - sine(30), 9)
    }
  })
})

const SUGARS: [variety: string, ...(number | null)[]][] = [
  ['meunier', 2398, 2474, 2561, 2634, 2660, 2727],
  ['sauvignon blanc', 2602, 2671, 2719, 2820, 2854, 2895],
  ['pinot noir', 2695, 2734, 2788, 2838, 2899, 2933],
  ['merlot', 2696, 2732, 2794, 2856, 2904, 2962],
  ['chardonnay', 2723, 2772, 2813, 2892, null, null],
  ['cabernet franc', 2683, 2759, 2837, 2909, 2964, 3065],
  ['syrah', 2817, 2853, 2934, 2965, 2987, 3034],
  ['grenache', 2786, 2836, 2890, 2967, 3062, 3108],
  ['cabernet sauvignon', 2797, 2865, 2926, 3031, 3055, 3136],
  // 170 g/L is left out: 2693 jumps by 309 to the next.
  ['riesling', null, 3002, 3069, 3225, null, null],
  ['ugni blanc', 3108, 3181, null, null, null, null],
]

describe('requirements by variety, each second-hand', () => {
  const row = (
    id: string,
    source: string,
    [got, want]: [PublishedRow['got'], PublishedRow['want']],
  ): PublishedRow => ({
    ...{ id, source, basis: 'read', got, want },
  })
  published([
    ...SUGARS.flatMap(([variety, ...sums]) =>
      sums.map((want, index) =>
        row(`${variety}, ${170 + 10 * index} g/L`, 'the same script, after Parker et al. 2020', [
          () => sugarRequirements[variety]?.[(170 + 10 * index) as 170] ?? null,
          want,
        ]),
      ),
    ),
  ])
})
