import { requireNotNegative, requirePositive } from '../statistics/require-number.ts'

/** A figure with its range. Low and high are null where unknown. */
export interface Range {
  low: number | null
  likely: number
  high: number | null
}

/** Rounds up or down, but not across a whole number because of a float's last digit. */
const up = (value: number): number => Math.max(0, Math.ceil(value - 1e-9))
const down = (value: number): number => Math.floor(value + 1e-9)

/**
 * What a harvest needs. Person-hours = kg / rate; crates, buckets, people and press loads round up, bottles down. Low
 * person-hours join the low crop with the high rate, and the other way round; a rate whose range is unknown counts as
 * exact. Source of the arithmetic: none needed; every constant is the grower's own.
 *
 * @param options crop in kg; rate in kg per person-hour; hours picked in a day, crate, bucket and pressLoad in kg;
 *   juicePerTonne in L/t; headspace, share of the juice added for tank space, default 0; bottle in L, default 0.75
 * @throws RangeError when a number that divides is not above zero, or the crop or headspace is negative
 */
export function harvestPlan(options: {
  crop: Range
  rate: Range
  hours: number
  crate: number
  bucket?: number
  juicePerTonne: number
  headspace?: number
  bottle?: number
  pressLoad?: number
}) {
  const { crop, rate, hours, crate, bucket, juicePerTonne, headspace = 0, bottle = 0.75, pressLoad } = options
  requirePositive({ hours, crate, bucket: bucket ?? 1, bottle })
  requirePositive({ pressLoad: pressLoad ?? 1 })
  requireNotNegative({ juicePerTonne, headspace })
  for (const side of ['low', 'likely', 'high'] as const) {
    requirePositive({ rate: rate[side] ?? 1 })
    requireNotNegative({ crop: crop[side] ?? 0 })
  }
  const from = (range: Range, figure: (value: number) => number): Range => ({
    low: range.low === null ? null : figure(range.low),
    likely: figure(range.likely),
    high: range.high === null ? null : figure(range.high),
  })
  const personHours: Range = {
    low: crop.low === null ? null : crop.low / (rate.high ?? rate.likely),
    likely: crop.likely / rate.likely,
    high: crop.high === null ? null : crop.high / (rate.low ?? rate.likely),
  }
  const juice = from(crop, (kg) => (kg / 1000) * juicePerTonne)
  return {
    crates: from(crop, (kg) => up(kg / crate)),
    /** Bucketfuls; null where no bucket is given. */
    buckets: bucket === undefined ? null : from(crop, (kg) => up(kg / bucket)),
    personHours,
    /** People needed to pick the crop in one day. */
    people: from(personHours, (spent) => up(spent / hours)),
    /** Litres of juice, of tank space with headspace, whole bottles of juice, press loads. */
    juice,
    tank: from(juice, (litres) => litres * (1 + headspace)),
    bottles: from(juice, (litres) => down(litres / bottle)),
    pressLoads: pressLoad === undefined ? null : from(crop, (kg) => up(kg / pressLoad)),
  }
}
