import { exceeds } from '../statistics/exceeds.ts'
import { requirePositive, requireShare } from '../statistics/require-number.ts'

interface NozzleCheck {
  /** L/min, the mean of all nozzles. */
  mean: number
  /** Deviation from the mean as a share: 0.15 is 15 % above it. */
  nozzles: { flow: number; deviation: number; ok: boolean }[]
}

/**
 * Each nozzle's flow against the mean of all; replace one that is off by more than the tolerance.
 * @param flows L/min of each nozzle, one or more
 * @param tolerance share of the mean, 0.1 for 10 %
 * @throws RangeError where there is no nozzle or a flow is not positive
 * Source of the 10 %: state publications quoted on Florida pest-control study pages.
 */
export function checkNozzles(flows: readonly number[], tolerance = 0.1): NozzleCheck {
  if (flows.length === 0) throw new RangeError('requires the flow of at least 1 nozzle')
  for (const flow of flows) requirePositive({ 'nozzle flow': flow })
  requireShare({ tolerance })
  const mean = flows.reduce((sum, flow) => sum + flow, 0) / flows.length
  return {
    mean,
    nozzles: flows.map((flow) => {
      const deviation = (flow - mean) / mean
      return { flow, deviation, ok: !exceeds(Math.abs(deviation), tolerance) }
    }),
  }
}

/**
 * The whole sprayer's rate against the wanted one.
 * @param rate actual and wanted in the same unit (L/ha); tolerance as a share of the wanted, 0.05 for 5 %
 * @returns deviation as a share of the wanted, and whether it is within the tolerance
 * @throws RangeError where a figure is not positive
 * Source of the 5 %: Ozkan 2021, Ohio State University Extension FABE-537.
 */
export function checkRate(rate: { actual: number; wanted: number; tolerance?: number }) {
  const { actual, wanted, tolerance = 0.05 } = rate
  requirePositive({ 'actual rate': actual, 'wanted rate': wanted })
  requireShare({ tolerance })
  const deviation = (actual - wanted) / wanted
  return { deviation, ok: !exceeds(Math.abs(deviation), tolerance) }
}
