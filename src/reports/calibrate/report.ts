import {
  flowFromCatch,
  pressureForFlow,
  requiredFlow,
  speedFromRun,
  volumePerHectare,
  volumePerHectareFromPlot,
} from '../../agronomy/spraying/calibration.ts'
import { courseLength, PLOT_AREA } from '../../agronomy/spraying/knapsack-plot.ts'
import { checkNozzles, checkRate } from '../../agronomy/spraying/nozzle-check.ts'
import { CAUTION, makeReport } from '../../facts/report.ts'
import type { ChangedValue } from '../../ledger/write/changed-values.ts'
import type { IsoDate } from '../../records/date.ts'
import type { Quantity } from '../../records/quantity.ts'

/** What was measured at a sprayer. Volumes in L, lengths in m, L/min, km/h, bar; shares 0 to 1. */
export interface Measured {
  flow?: number | undefined
  nozzles: readonly number[]
  speed?: number | undefined
  run?: { distance: number; seconds: number } | undefined
  /** Duration of the run, the plot or the catch. */
  seconds?: number | undefined
  tank?: number | undefined
  width?: number | undefined
  caught?: number | undefined
  /** Area of the plot sprayed in m²; the 1/128-acre plot where `plot128` is set. */
  plot?: number | undefined
  plot128: boolean
  wanted?: number | undefined
  pressure?: number | undefined
  nozzleTolerance: number
  rateTolerance: number
}

export type CalibrateData = ReturnType<typeof calibrate>['data']

/**
 * What a sprayer applies, from flow and speed or from a plot; its nozzles against their mean; and what a
 * wanted rate needs.
 * @throws RangeError where a figure is not positive
 */
export function calibrate(measured: Measured, asOf: IsoDate) {
  const { nozzles, width, caught, nozzleTolerance } = measured
  const { seconds } = measured
  const plot = measured.plot128 ? PLOT_AREA : measured.plot
  const run = measured.run ?? plotRun({ plot, width, seconds })
  const speed = measured.speed ?? (run ? speedFromRun(run) : undefined)
  const sum = nozzles.length > 0 ? nozzles.reduce((all, one) => all + one, 0) : undefined
  const flow = measured.flow ?? sum ?? caughtFlow({ caught, seconds })
  const byArea = caught !== undefined && plot !== undefined
  const byFlow = flow !== undefined && speed !== undefined && width !== undefined
  const volumePerHa = byArea
    ? volumePerHectareFromPlot({ litres: caught, area: plot })
    : byFlow
      ? volumePerHectare({ flow, speed, width })
      : null
  const check = nozzles.length > 0 ? checkNozzles(nozzles, nozzleTolerance) : null
  const data = {
    method: byArea ? 'area' : byFlow ? 'flow' : null,
    flow: quantity(flow, 'L/min'),
    speed: quantity(speed, 'km/h'),
    /** Width treated in one pass. */
    rowSpacing: quantity(width, 'm'),
    volumePerHa: quantity(volumePerHa, 'L/ha'),
    nozzles: (check?.nozzles ?? []).map((one) => ({ ...one, flow: { value: one.flow, unit: 'L/min' } })),
    nozzleMean: quantity(check?.mean, 'L/min'),
    nozzleTolerance,
    wanted: wantedOf(measured, { flow, speed, volumePerHa }),
    /** Length of the course of the 1/128-acre plot for the width. */
    course: measured.plot128 && width !== undefined ? quantity(courseLength(width), 'm') : null,
    plot: quantity(plot === undefined ? undefined : plot / 10_000, 'ha'),
    /** What is missing for the rate. */
    missing: byArea || byFlow ? [] : lacking({ flow, speed, width, caught, plot }),
    /** Whether the plot is that of the 1/128-acre method: US fl oz caught are US gal/acre. */
    plot128: measured.plot128,
    /** Area that a full tank covers at this rate. */
    tankCovers:
      measured.tank !== undefined && volumePerHa !== null
        ? { value: measured.tank / volumePerHa, unit: 'ha' }
        : null,
    /** The sprayer record that was written, relative to the ledger; null where none was. */
    saved: null as string | null,
    /** Changes to an existing record: the old value, null where there was none, and the new one. */
    changes: [] as ChangedValue[],
  }
  return makeReport('calibrate', { asOf, season: null }, { data, cautions: [CAUTION.dose] })
}

/** The length to walk over a plot: its area divided by the width of a pass. */
function plotRun(of: {
  plot: number | undefined
  width: number | undefined
  seconds: number | undefined
}): Measured['run'] {
  const { plot, width, seconds } = of
  if (plot === undefined || width === undefined || seconds === undefined) return undefined
  return { distance: plot / width, seconds }
}

/** L/min from what was caught in a time. */
const caughtFlow = ({ caught, seconds }: Pick<Measured, 'caught' | 'seconds'>): number | undefined =>
  caught === undefined || seconds === undefined ? undefined : flowFromCatch({ litres: caught, seconds })

const quantity = (value: number | null | undefined, unit: string): Quantity | null =>
  value === null || value === undefined ? null : { value, unit }

function wantedOf(
  { wanted, width, pressure, rateTolerance, nozzles }: Measured,
  had: { flow: number | undefined; speed: number | undefined; volumePerHa: number | null },
) {
  if (wanted === undefined) return null
  const { flow, speed, volumePerHa } = had
  const rate =
    volumePerHa === null ? null : checkRate({ actual: volumePerHa, wanted, tolerance: rateTolerance })
  const flowNeeded =
    speed !== undefined && width !== undefined
      ? requiredFlow({ volumePerHa: wanted, speed, width })
      : flow !== undefined && volumePerHa !== null
        ? (flow * wanted) / volumePerHa
        : null
  return {
    volumePerHa: { value: wanted, unit: 'L/ha' },
    deviation: rate?.deviation ?? null,
    ok: rate?.ok ?? null,
    tolerance: rateTolerance,
    flowNeeded: quantity(flowNeeded, 'L/min'),
    perNozzle: quantity(
      flowNeeded !== null && nozzles.length > 0 ? flowNeeded / nozzles.length : null,
      'L/min',
    ),
    speedNeeded: quantity(
      speed !== undefined && volumePerHa !== null ? (speed * volumePerHa) / wanted : null,
      'km/h',
    ),
    pressureNeeded: quantity(
      pressure !== undefined && flow !== undefined && flowNeeded !== null
        ? pressureForFlow({ pressure, flow, wantedFlow: flowNeeded })
        : null,
      'bar',
    ),
  }
}

function lacking(had: Record<'flow' | 'speed' | 'width' | 'caught' | 'plot', number | undefined>): string[] {
  if (had.caught !== undefined && had.flow === undefined)
    return ['the plot that was sprayed (--plot 72m2), or the seconds of catching (--seconds 60)']
  if (had.plot !== undefined && had.flow === undefined) return ['what was caught or refilled (--caught)']
  const words = {
    flow: 'the flow (--flow or --nozzle)',
    speed: 'the speed (--speed, or --distance with --seconds)',
    width: 'the width of a pass (--width)',
  }
  return (['flow', 'speed', 'width'] as const)
    .filter((key) => had[key] === undefined)
    .map((key) => words[key])
}
