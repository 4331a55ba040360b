import { requiredFlow, volumePerHectare } from '../../agronomy/spraying/calibration.ts'
import { mixingRank, WATER_CONDITIONER_RANK, WETTER_RANK } from '../../agronomy/spraying/mixing-order.ts'
import { checkRate } from '../../agronomy/spraying/nozzle-check.ts'
import { fillTanks } from '../../agronomy/spraying/tank.ts'
import { exceeds } from '../../agronomy/statistics/exceeds.ts'
import type { Units } from '../../facts/ledger-units.ts'
import { CAUTION, makeReport } from '../../facts/report.ts'
import { figureText } from '../../facts/sentences.ts'
import { OVER_LABEL, type OverLabel } from '../../facts/spraying/over-label.ts'
import type { Finding } from '../../ledger/read/finding.ts'
import type { SprayEntry } from '../../ledger/read/ledger.ts'
import { placeOf } from '../../ledger/read/source.ts'
import type { IsoDate } from '../../records/date.ts'
import type { MixAfter } from './against.ts'
import { amountsOf, type MixProduct } from './amounts.ts'
import { type MixJob, type MixPart, paceOf, recordCommand, volumeOf } from './job.ts'

export type MixData = ReturnType<typeof mix>['data']

/** A tank mix: how much of what goes into each fill, in which order, how long it takes, and what follows. */
export function mix(
  job: MixJob,
  from: {
    asOf: IsoDate
    season: number | null
    /** Of the command that records it. */
    units: Units
    after?: MixAfter
    findings?: Finding[]
    /** What the ledger says is over the label beside the doses. */
    overLabel?: OverLabel[]
    /** The spray that this mix was recorded as. */
    recorded?: SprayEntry | null
  },
) {
  const litres = volumeOf(job)
  const filled =
    job.tank === null
      ? null
      : fillTanks({ volume: litres, tank: job.tank, even: job.even, alreadyInTank: job.inTank })
  const products = job.parts.map((part) => amountsOf(part, job, filled))
  const steps = orderOf(job.parts)
  const recordedAt = from.recorded ? placeOf(from.recorded.source) : null
  const overLabel = from.overLabel ?? overInMix(products, from.asOf)
  const data = {
    /** Ground area treated; null where nobody said. */
    area: job.area === null ? null : { value: job.area, unit: 'ha' },
    water: { value: litres, unit: 'L' },
    waterPerHa: job.waterPerHa === null ? null : { value: job.waterPerHa, unit: 'L/ha' },
    spot: job.spot ?? false,
    treated: job.treated ?? null,
    /** Spray for each vine, where their number was said. */
    perVine: job.treated?.vines ? { value: litres / job.treated.vines, unit: 'L' } : null,
    sprayer: job.sprayer ?? null,
    /** The command that records it once it is sprayed; null where it is no part or spot spray of known blocks. */
    record: overLabel.length === 0 && !from.recorded ? recordCommand(job, from.units) : null,
    /** Where the same spray of that day is recorded already; null where it isn't. */
    recorded: recordedAt && { file: recordedAt.file, line: recordedAt.line },
    /** How fast to go, where the sprayer's flow or speed is known; seconds. */
    pace: paceOf(job),
    waterBy: job.waterBy,
    tank: job.tank === null ? null : { value: job.tank, unit: 'L' },
    /** Tanks filled to the mark; with equal fills 0, and `lastTank` is one of the equal fills. */
    fullTanks: filled?.fullTanks ?? null,
    lastTank: filled && { value: filled.lastTank, unit: 'L' },
    even: job.even,
    fills: filled?.fills.map((value) => ({ value, unit: 'L' })) ?? null,
    /** Water to add for each fill, less what stood in the tank before the first. */
    toAdd: filled?.toAdd.map((value) => ({ value, unit: 'L' })) ?? null,
    /** Water that stands in the tank beyond the first fill: the spray would come out too weak. */
    tooMuch: filled && filled.tooMuch > 0 ? { value: filled.tooMuch, unit: 'L' } : null,
    products: overLabel.length === 0 ? products : products.map(withoutAmounts),
    order: steps.map(({ product }) => product),
    /** Where each product stands in the order of filling, and why. */
    steps,
    time: timeOf(job, filled?.fills.length ?? null),
    /** The sprayer's own rate where it is more than 5 % off the water of the mix. */
    offRate: offRateOf(job),
    means: usesMean(products, job) ? job.means : [],
    /** Products whose dose is above a most of the label, or one that was typed: such a mix has no fill sheet and no dates. */
    overLabel,
    /** Why products carry no amounts; null where they do. */
    withheld: overLabel.length === 0 ? null : `no amounts: ${OVER_LABEL}`,
    after: from.after ?? null,
  }
  return makeReport('mix', from, {
    data,
    findings: from.findings ?? [],
    cautions: [CAUTION.dose, CAUTION.clearance],
  })
}

/** A product of a mix that nobody should weigh out: its dose as asked for, without the amounts that come of it. */
const withoutAmounts = (product: MixProduct): MixProduct => ({
  ...product,
  total: null,
  perFullTank: null,
  perLastTank: null,
  perFill: null,
  rounded: null,
})

/** Whether a dose depends on the mean canopy of several blocks. */
function usesMean(products: readonly MixProduct[], { parts }: MixJob): boolean {
  return (
    parts.some(({ dose }) => dose.unit.endsWith('leaf wall')) ||
    products.some(({ concentrationFactor }) => concentrationFactor !== null)
  )
}

/** Products in the order of filling; those that no order places keep their order, at the end. */
function orderOf(parts: readonly MixPart[]) {
  const steps = parts.map(({ id, product }) => ({ id, product, ...placeInOrder(product) }))
  const ranks = new Set(steps.map(({ rank }) => rank))
  return steps
    .map(({ id, product, rank, reason, disagreement }) => {
      const matters = product?.form === 'ME' ? steps.length > 1 : ranks.has(DISPUTED.get(rank ?? 0) ?? NaN)
      return { product: id, rank, reason, disagreement: matters ? disagreement : null }
    })
    .toSorted((a, b) => (a.rank ?? WETTER_RANK + 1) - (b.rank ?? WETTER_RANK + 1))
}

/**
 * Ranks whose order published orders dispute, where both are in the tank: soluble and dispersible powders (2, 3), and
 * emulsions and solutions (5, 6).
 */
const DISPUTED = new Map([
  [2, 3],
  [3, 2],
  [5, 6],
  [6, 5],
])

function placeInOrder(product: MixPart['product']): ReturnType<typeof mixingRank> {
  if (!product) return { rank: null, reason: 'formulation not known: see the label', disagreement: null }
  const kind = product.kind.toLowerCase()
  if (kind === 'water conditioner')
    return { rank: WATER_CONDITIONER_RANK, reason: 'conditions the water', disagreement: null }
  if (kind === 'adjuvant' || kind === 'wetter')
    return { rank: WETTER_RANK, reason: 'wetter or other adjuvant', disagreement: null }
  return mixingRank(product.form)
}

function timeOf(job: MixJob, fills: number | null) {
  const { area, flow, speed, width, tank, spot } = job
  // What is driven takes as long as it takes, whatever comes out of the nozzles.
  const driven = !spot && area !== null && speed !== undefined && width !== undefined
  const byFlow = flow === undefined ? null : volumeOf(job) / flow
  const minutes = driven ? (600 * area) / (speed * width) : byFlow
  return {
    minutes,
    refills: fills === null ? null : fills - 1,
    perTank: flow !== undefined && tank !== null ? tank / flow : null,
    why: minutes === null ? 'the flow of the sprayer, or its speed and the width of a pass' : null,
  }
}

function offRateOf({ flow, speed, width, waterPerHa, spot }: MixJob) {
  if (flow === undefined || speed === undefined || width === undefined) return null
  if (spot || waterPerHa === null) return null
  const actual = volumePerHectare({ flow, speed, width })
  const { deviation, ok } = checkRate({ actual, wanted: waterPerHa })
  if (ok) return null
  return {
    actual: { value: actual, unit: 'L/ha' },
    deviation,
    flowNeeded: { value: requiredFlow({ volumePerHa: waterPerHa, speed, width }), unit: 'L/min' },
    speedNeeded: { value: (speed * actual) / waterPerHa, unit: 'km/h' },
  }
}

/** The products of a mix whose dose is above a most: that of the label, or one that was typed. */
function overInMix(products: readonly MixProduct[], date: IsoDate): OverLabel[] {
  return products.flatMap(({ product, limits }) => {
    const over = limits.find(({ value, high }) => value !== null && exceeds(value, high))
    if (!over) return []
    const whose = over.place === '--max' ? 'the maximum given' : "the label's maximum"
    const why = `${figureText(over.value!, over.unit)}, ${whose} is ${figureText(over.high, over.unit)}`
    return { product, date, why }
  })
}
