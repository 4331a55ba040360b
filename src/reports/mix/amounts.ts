import { resolveDose } from '../../agronomy/spraying/dose.ts'
import { roundForScale } from '../../agronomy/spraying/round-for-scale.ts'
import { amountsPerFill, type fillTanks } from '../../agronomy/spraying/tank.ts'
import { exceeds } from '../../agronomy/statistics/exceeds.ts'
import { lowest } from '../../agronomy/statistics/extremes.ts'
import { asDose, isConcentrated, perLitreOf, SMALL, unitOf } from '../../facts/spraying/dose.ts'
import {
  type DoseForms,
  type DoseLimit,
  doseLimits,
  impliedLimits,
  inFormOf,
  usesFor,
} from '../../facts/spraying/label.ts'
import type { Quantity } from '../../records/quantity.ts'
import { mention } from '../../rules/rule.ts'
import { type MixJob, type MixPart, volumeOf } from './job.ts'

interface MixLimit extends Pick<DoseLimit, 'form' | 'against' | 'low' | 'high' | 'unit'> {
  /** The dose in the limit's own form; null where it can't be had. */
  value: number | null
  within: boolean | null
  /** Where the limit stands in the ledger. */
  place: string
  /** The label's least water in L/ha, where its dose for ground area was turned into this concentration. */
  inWater: number | null
}

export type MixProduct = ReturnType<typeof amountsOf>

/** What a dose needs that the job doesn't say: a fault of how the command is used. */
export class DoseNeeds extends Error {
  constructor(
    readonly part: MixPart,
    readonly needs: 'area' | 'dilutePerHa' | 'leafWallPerHa' | 'waterPerHa',
  ) {
    super(`the dose of ${part.id} needs ${needs === 'area' ? 'the area' : needs}`)
  }
}

/**
 * A product's amounts for a job: in all, and for each fill in proportion.
 * @throws DoseNeeds where the dose is given for something that the job doesn't say.
 */
export function amountsOf(part: MixPart, job: MixJob, filled: ReturnType<typeof fillTanks> | null) {
  const { product } = part
  const unit = unitOf(asWritten(part.dose), { form: product?.form ?? 'XX' })
  const small = SMALL[unit]
  const { perHa, perLitre, labelPerLitre, total, factor, capped } =
    job.area === null
      ? strengthOf(part, job)
      : strengthOnArea(part, unit, { ...job, area: job.area, waterPerHa: job.waterPerHa! })
  const rate = perHa === null ? null : { value: perHa, unit: `${unit}/ha` }
  const perLeafWall =
    perHa === null || job.leafWallPerHa === undefined
      ? null
      : { value: (perHa * 10_000) / job.leafWallPerHa, unit: `${unit}/ha leaf wall` }
  const limits = limitsOf(part, {
    spot: job.spot ?? false,
    forms: { perHa: rate, perLeafWall, concentration: { value: labelPerLitre, unit: small } },
  })
  const known = limits.filter((limit) => limit.within !== null)
  const perFill = filled && amountsPerFill(total, filled.fills).map((value) => ({ value, unit }))
  const chosen = limits.find(({ form, inWater }) => form !== 'max_rate' && inWater === null)
  const step = job.step?.[unit]
  const amount = (value: number): Quantity => ({ value, unit })
  return {
    product: part.id,
    name: product?.name ?? part.id,
    form: product?.form ?? null,
    /** For ground area; null where the area is unknown. */
    rate,
    concentration: { value: perLitre, unit: small },
    /** Product for the whole job; null where the mix is over the label, as are all amounts below. */
    total: amount(total) as Quantity | null,
    perFullTank: job.tank === null ? null : amount((perLitre * job.tank) / 1000),
    perLastTank: filled && (filled.lastTank === 0 ? amount(0) : perFill!.at(-1)!),
    /** For each fill in order. */
    perFill,
    /** The label's dose for this use, in the form that the label gives; null without a record. */
    range: chosen ? { low: chosen.low, high: chosen.high, unit: chosen.unit } : null,
    /** Whether every limit of dose of the label is kept; null where there is none to hold it against. */
    inRange: known.length === 0 ? null : known.every((limit) => limit.within),
    limits,
    /** Dilute volume over applied volume, where the dose was for a dilute volume. */
    concentrationFactor: factor,
    /** True where the label's most for ground area lowered the dose. */
    capped,
    /** After rounding for the scale; null where not asked for. */
    rounded: perFill && step !== undefined ? round(perFill, { total, step, room: roomOf(limits) }) : null,
  }
}

/**
 * The dose in so many litres of spray, where nobody knows the area: by its strength or its total. Per litre it is in g
 * or mL, in all in kg or L.
 */
function strengthOf(part: MixPart, job: MixJob) {
  const litres = volumeOf(job)
  const { amount, concentration } = asWritten(part.dose)
  if (job.dilutePerHa !== undefined || (!amount && !concentration)) throw new DoseNeeds(part, 'area')
  const perLitre = amount ? (amount.value * 1000) / litres : perLitreOf(concentration!)
  const total = amount?.value ?? (perLitre * litres) / 1000
  return { perHa: null, perLitre, labelPerLitre: perLitre, total, factor: null, capped: false }
}

/** The dose on a known area, whichever form it has. */
function strengthOnArea(
  part: MixPart,
  unit: 'kg' | 'L',
  { area, waterPerHa, leafWallPerHa, dilutePerHa }: MixJob & { area: number; waterPerHa: number },
) {
  const { product } = part
  const dilute = product === null || isConcentrated(product) ? dilutePerHa : undefined
  const mosts = [part.most, ...(product ? usesFor(product, part.targets) : []).map(({ use }) => use.max_rate)]
  const maxPerHa = lowest(mosts.flatMap((most) => (most?.unit === `${unit}/ha` ? most.value : [])))
  const dose = asDose(asWritten(part.dose), unit, { whole: area, dilute })
  const isCapped = Number.isFinite(maxPerHa) && (dose.basis === 'leaf-wall' || dose.basis === 'dilute')
  const resolved = resolveDose(isCapped ? { ...dose, maxPerHa } : dose, {
    waterPerHa,
    dilutePerHa: dilute,
    leafWallPerHa,
  })
  if (resolved.perHa === null) throw new DoseNeeds(part, resolved.missing!)
  return {
    perHa: resolved.perHa,
    perLitre: resolved.concentration!,
    /** In the volume that the label speaks of: dilute where the spray is a concentrate. */
    labelPerLitre: (resolved.perHa * 1000) / (dilute ?? waterPerHa),
    total: resolved.perHa * area,
    factor: resolved.concentrationFactor,
    capped: resolved.capped,
  }
}

/** The dose as an entry of the ledger would hold it. */
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
  return [{ form: 'max_rate', against, low: 0, high, unit, value, within, place: '--max', inWater: null }]
}

/** The label's limits and the typed one; without an area first those that the strength can be held against. */
function limitsOf(part: MixPart, { forms, spot }: { forms: DoseForms; spot: boolean }): MixLimit[] {
  const { product, targets } = part
  const typed = typedLimit(part, forms)
  if (!product) return typed
  const written = doseLimits(usesFor(product, targets))
  const isImplied = forms.perHa === null && written.every(({ form }) => form !== 'concentration')
  const ofLabel = [...(isImplied ? impliedLimits(product, targets) : []), ...written].map((limit) => {
    const value = inFormOf(limit, forms)
    const { form, against, low, high, unit, path, inWater = null } = limit
    // A spot is sprayed until it is wet: for ground area nothing can be too little.
    const least = spot && form !== 'concentration' ? 0 : low
    const within = value === null ? null : !exceeds(value, high) && !exceeds(least, value)
    return { form, against, low, high, unit, value, within, place: mention(product, path), inWater }
  })
  const all = [...ofLabel, ...typed]
  const lasts = ({ value }: MixLimit) => Number(value === null)
  return forms.perHa === null ? all.sort((a, b) => lasts(a) - lasts(b)) : all
}

/** How many times the dose the limits leave room for; without end where they name no most. */
const roomOf = (limits: readonly MixLimit[]): number =>
  lowest(limits.flatMap(({ value, high }) => (value !== null && value > 0 ? [high / value] : [])))

/** What each fill gets after rounding, and the effect on the whole in %. */
function round(
  perFill: readonly Quantity[],
  { total, step, room }: { total: number; step: number; room: number },
) {
  const { unit } = perFill[0]!
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
