import { expect, test } from 'vitest'
import { cropEstimate } from '../../../src/agronomy/crop/crop-estimate.ts'
import { meanInterval } from '../../../src/agronomy/statistics/mean.ts'
import { seededNormal } from '../seeded-normal.ts'

/** Simulated truth (invented): how often the interval holds it. */
const share = (runs: number, holds: () => boolean): number =>
  Array.from({ length: runs }, holds).filter(Boolean).length / runs

test.each([
  { vines: 4, bunches: 3, cv: 0 },
  { vines: 10, bunches: 30, cv: 0 },
  { vines: 20, bunches: 60, cv: 0.1 },
])('the 95 % interval of the crop holds it, %o', ({ vines, bunches, cv }) => {
  const normal = seededNormal(7)
  const covered = share(1000, () => {
    const count = meanInterval(Array.from({ length: vines }, () => Math.max(0, 28 + 9 * normal())))
    const weight = meanInterval(
      Array.from({ length: bunches }, () => Math.max(0.001, 0.12 + 0.04 * normal())),
    )
    const { low, high } = cropEstimate({ vines: 1e6, bunches: count, weight, factor: { value: 2, cv } })
    const truth = 1e6 * 28 * 0.12 * 2 * (1 + cv * normal())
    return low! <= truth && truth <= high!
  })
  expect(covered).toBeGreaterThanOrEqual(0.93)
})
