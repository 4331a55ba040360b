import {
  courseLength,
  flowFromCatch,
  PLOT_AREA,
  pressureForFlow,
  requiredFlow,
  speedFromRun,
  volumePerHectare,
  volumePerHectareFromPlot,
} from '../../agronomy/spraying/calibration.ts'
import { checkNozzles, checkRate } from '../../agronomy/spraying/nozzle-check.ts'
import { CAUTION, makeReport } from '../../facts/report.ts'
import type { ChangedValue } from '../../ledger/write/amended-text.ts'
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
  const { nozzles, width, caught, seconds, nozzleTolerance } = measured
  const plot = measured.plot128 ? PLOT_AREA : measured.plot
  // The length to walk over a plot is its area divided by the width of a pass.
  const run =
    measured.run ??
    from({ plot, width, seconds }, (of) => ({ distance: of.plot / of.width, seconds: of.seconds }))
  const speed = measured.speed ?? from({ run }, (of) => speedFromRun(of.run))
  const sum = nozzles.length > 0 ? nozzles.reduce((all, one) => all + one, 0) : undefined
  const flow = measured.flow ?? sum ?? from({ litres: caught, seconds }, flowFromCatch)
  const byArea = from({ litres: caught, area: plot }, volumePerHectareFromPlot)
  const volumePerHa = byArea ?? from({ flow, speed, width }, volumePerHectare)
  const check = nozzles.length > 0 ? checkNozzles(nozzles, nozzleTolerance) : null
  const data = {
    method: byArea !== undefined ? 'area' : volumePerHa !== undefined ? 'flow' : null,
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
    course: measured.plot128
      ? quantity(
          from({ width }, (of) => courseLength(of.width)),
          'm',
        )
      : null,
    plot: quantity(
      from({ plot }, (of) => of.plot / 10_000),
      'ha',
    ),
    /** What is missing for the rate. */
    missing: volumePerHa === undefined ? lacking({ flow, speed, width, caught, plot }) : [],
    /** Whether the plot is that of the 1/128-acre method: US fl oz caught are US gal/acre. */
    plot128: measured.plot128,
    /** Area that a full tank covers at this rate. */
    tankCovers: quantity(
      from({ tank: measured.tank, volumePerHa }, (of) => of.tank / of.volumePerHa),
      'ha',
    ),
    /** The sprayer record that was written, relative to the ledger; null where none was. */
    saved: null as string | null,
    /** Changes to an existing record: the old value, null where there was none, and the new one. */
    changes: [] as ChangedValue[],
  }
  return makeReport('calibrate', { asOf, season: null }, { data, cautions: [CAUTION.dose] })
}

type Known<T> = { [K in keyof T]-?: NonNullable<T[K]> }

/** What follows from some figures where all of them are known, else undefined. */
function from<T extends object, R>(figures: T, formula: (known: Known<T>) => R): R | undefined {
  return Object.values(figures).includes(undefined) ? undefined : formula(figures as Known<T>)
}

const quantity = (value: number | undefined, unit: string): Quantity | null =>
  value === undefined ? null : { value, unit }

function wantedOf(
  { wanted, width, pressure, rateTolerance, nozzles }: Measured,
  { flow, speed, volumePerHa }: Record<'flow' | 'speed' | 'volumePerHa', number | undefined>,
) {
  if (wanted === undefined) return null
  const rate = from({ actual: volumePerHa }, ({ actual }) =>
    checkRate({ actual, wanted, tolerance: rateTolerance }),
  )
  const wantedFlow =
    from({ speed, width }, (known) => requiredFlow({ volumePerHa: wanted, ...known })) ??
    from({ flow, volumePerHa }, (known) => (known.flow * wanted) / known.volumePerHa)
  const perNozzle =
    nozzles.length > 0 ? from({ wantedFlow }, (of) => of.wantedFlow / nozzles.length) : undefined
  const speedNeeded = from({ speed, volumePerHa }, (known) => (known.speed * known.volumePerHa) / wanted)
  return {
    volumePerHa: { value: wanted, unit: 'L/ha' },
    deviation: rate?.deviation ?? null,
    ok: rate?.ok ?? null,
    tolerance: rateTolerance,
    flowNeeded: quantity(wantedFlow, 'L/min'),
    perNozzle: quantity(perNozzle, 'L/min'),
    speedNeeded: quantity(speedNeeded, 'km/h'),
    pressureNeeded: quantity(from({ pressure, flow, wantedFlow }, pressureForFlow), 'bar'),
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
