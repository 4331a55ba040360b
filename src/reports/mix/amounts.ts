import { resolveDose } from '../../agronomy/spraying/dose.ts'
import { roundForScale } from '../../agronomy/spraying/round-for-scale.ts'
import { amountsPerFill } from '../../agronomy/spraying/tank.ts'
import { exceeds } from '../../agronomy/statistics/exceeds.ts'
import { asDose, isConcentrated, unitOf } from '../../facts/spraying/dose.ts'
import { type DoseForms, type DoseLimit, doseLimits, inFormOf, usesFor } from '../../facts/spraying/label.ts'
import type { Quantity } from '../../records/quantity.ts'
import { mention } from '../../rules/rule.ts'
import type { MixJob, MixPart } from './job.ts'

interface MixLimit {
  form: DoseLimit['form']
  against: string
  low: number
  high: number
  unit: string
  /** The dose in the limit's own form; null where it can't be had. */
  value: number | null
  within: boolean | null
  /** Where the limit stands in the ledger. */
  place: string
}

export interface MixProduct {
  product: string
  name: string
  form: string | null
  rate: Quantity
  concentration: Quantity
  /** Product for the whole job; null where the mix is over the label, as are all amounts below. */
  total: Quantity | null
  perFullTank: Quantity | null
  perLastTank: Quantity | null
  /** For each fill in order. */
  perFill: Quantity[] | null
  /** The label's dose for this use, in the form that the label gives; null without a record. */
  range: { low: number; high: number; unit: string } | null
  /** Whether every limit of dose of the label is kept; null where there is none to hold it against. */
  inRange: boolean | null
  limits: MixLimit[]
  /** Dilute volume over applied volume, where the dose was for a dilute volume. */
  concentrationFactor: number | null
  /** True where the label's most for ground area lowered the dose. */
  capped: boolean
  /** After rounding for the scale: what each fill gets, and the effect on the whole in %; null where not asked for. */
  rounded: {
    perFill: (Quantity | null)[]
    total: Quantity | null
    effect: number | null
    why: string | null
  } | null
}

/** What a dose needs that the job doesn't say: a fault of how the command is used. */
export class DoseNeeds extends Error {
  constructor(
    readonly part: MixPart,
    readonly needs: 'dilutePerHa' | 'leafWallPerHa' | 'rowVolumePerHa' | 'waterPerHa',
  ) {
    super(`the dose of ${part.id} needs ${needs}`)
  }
}

/**
 * A product's amounts for a job: in all, and for each fill in proportion.
 * @throws DoseNeeds where the dose is given for something that the job doesn't say.
 */
export function amountsOf(part: MixPart, job: MixJob, fills: readonly number[] | null): MixProduct {
  const { product } = part
  const form = product?.form ?? 'XX'
  const written = asWritten(part.dose)
  const unit = unitOf(written, { form })
  const concentrated = product === null || isConcentrated(product)
  const dilute = concentrated ? job.dilutePerHa : undefined
  const uses = product ? usesFor(product, part.targets) : []
  const most = Math.min(
    ...uses.flatMap(({ use }) => (use.max_rate?.unit === `${unit}/ha` ? [use.max_rate.value] : [])),
    ...(part.most?.unit === `${unit}/ha` ? [part.most.value] : []),
  )
  const dose = asDose(written, unit, { whole: job.area, dilute })
  const capped = Number.isFinite(most) && (dose.basis === 'leaf-wall' || dose.basis === 'dilute')
  const resolved = resolveDose(capped ? { ...dose, maxPerHa: most } : dose, {
    waterPerHa: job.waterPerHa,
    ...(dilute === undefined ? {} : { dilutePerHa: dilute }),
    ...(job.leafWallPerHa === undefined ? {} : { leafWallPerHa: job.leafWallPerHa }),
  })
  if (resolved.perHa === null) throw new DoseNeeds(part, resolved.missing!)
  const rate = { value: resolved.perHa, unit: `${unit}/ha` }
  const small = unit === 'kg' ? 'g' : 'mL'
  const concentration = { value: resolved.concentration!, unit: `${small}/L` }
  const forLabel = { value: (resolved.perHa * 1000) / (dilute ?? job.waterPerHa), unit: `${small}/L` }
  const limits = limitsOf(part, {
    perHa: rate,
    perLeafWall:
      job.leafWallPerHa === undefined
        ? null
        : { value: (resolved.perHa * 10_000) / job.leafWallPerHa, unit: `${unit}/ha leaf wall` },
    concentration: forLabel,
  })
  const known = limits.filter((limit) => limit.within !== null)
  const total = resolved.perHa * job.area
  const perFill = fills && amountsPerFill(total, fills).map((value) => ({ value, unit }))
  const chosen = limits.find((limit) => limit.form !== 'max_rate')
  return {
    product: part.id,
    name: product?.name ?? part.id,
    form: product?.form ?? null,
    rate,
    concentration,
    total: { value: total, unit },
    perFullTank: job.tank === null ? null : { value: (concentration.value * job.tank) / 1000, unit },
    perLastTank: null,
    perFill,
    range: chosen ? { low: chosen.low, high: chosen.high, unit: chosen.unit } : null,
    inRange: known.length === 0 ? null : known.every((limit) => limit.within),
    limits,
    concentrationFactor: resolved.concentrationFactor,
    capped: resolved.cappedBy !== null,
    rounded:
      perFill && job.step?.[unit] !== undefined
        ? round(perFill, { total, step: job.step[unit], room: roomOf(limits) })
        : null,
  }
}

/** The dose as an entry of the book would hold it. */
export function asWritten(dose: Quantity): { rate?: Quantity; amount?: Quantity; concentration?: Quantity } {
  if (dose.unit === 'kg' || dose.unit === 'L') return { amount: dose }
  return dose.unit.includes('/ha') ? { rate: dose } : { concentration: dose }
}

/** The most that was typed beside the dose, as a limit like those of a label. */
function typedLimit({ most, targets }: MixPart, { perHa }: DoseForms): MixLimit[] {
  if (!most || !perHa) return []
  const { value: high, unit } = most
  const value = perHa.unit === unit ? perHa.value : null
  const within = value === null ? null : !exceeds(value, high)
  const against = targets?.join(', ') ?? 'any target'
  return [{ form: 'max_rate', against, low: 0, high, unit, value, within, place: '--max' }]
}

function limitsOf(part: MixPart, forms: DoseForms): MixLimit[] {
  const { product, targets } = part
  const typed = typedLimit(part, forms)
  if (!product) return typed
  const ofLabel = doseLimits(usesFor(product, targets)).map((limit) => {
    const value = inFormOf(limit, forms)
    const { form, against, low, high, unit } = limit
    const within = value === null ? null : !exceeds(value, high) && !exceeds(low, value)
    return { form, against, low, high, unit, value, within, place: mention(product, limit.path) }
  })
  return [...ofLabel, ...typed]
}

/** How many times the dose the limits leave room for; without end where they name no most. */
const roomOf = (limits: readonly MixLimit[]): number =>
  Math.min(...limits.flatMap(({ value, high }) => (value !== null && value > 0 ? [high / value] : [])))

function round(
  perFill: readonly Quantity[],
  { total, step, room }: { total: number; step: number; room: number },
): MixProduct['rounded'] {
  const unit = perFill[0]!.unit
  const shares = perFill.map(({ value }) => roundForScale(value, step, value * room))
  const why = shares.find(({ reason }) => reason !== null)?.reason ?? null
  const sum = shares.reduce((all, { amount }) => all + (amount ?? 0), 0)
  return {
    perFill: shares.map(({ amount }) => (amount === null ? null : { value: amount, unit })),
    total: why === null ? { value: sum, unit } : null,
    effect: why === null && total > 0 ? (sum / total - 1) * 100 : null,
    why,
  }
}
