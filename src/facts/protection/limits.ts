import { type PowderyProductClass, powderyInterval } from '../../agronomy/disease/powdery-interval.ts'
import type { StageEntry } from '../../ledger/read/ledger.ts'
import { dayOf } from '../../records/date.ts'
import type { Product } from '../../records/product.ts'
import type { Disease } from '../../records/target.ts'

/** Growth stages of rapid shoot growth, and its days after which a contact deposit has too much new leaf beside it. */
const RAPID_GROWTH = { from: 13, to: 71, days: 10, source: 'common practice, no source' } as const

/** Top of the moderate band, below the one for which some products are not advised: Gubler et al. 1999, as `pressure` cites it. */
const HIGHEST_MODERATE = 50

/** Days for which a protection is followed past its spray: longer than any label's. Our own choice. */
const LONGEST = 60

/** The column of the interval table that a product belongs in; null where the table has none for it. */
function productClass({ actives, kind, nature }: Product): PowderyProductClass | null {
  const groups = actives.map(({ group }) => group ?? '')
  if (groups.includes('M02') || actives.some(({ name }) => /sulph?ur|sulf/i.test(name))) return 'sulphur'
  if (groups.includes('3')) return 'dmi'
  if (groups.includes('11')) return 'strobilurin'
  const gentle = groups.some((group) => group === 'NC' || group.startsWith('BM') || group.startsWith('P'))
  return gentle || kind === 'biological' || nature === 'biological' ? 'biological' : null
}

/**
 * Days of the label's interval against a disease: its long end, and the short one where more is at stake; null where the
 * label gives none. Where it says how long the product protects, that stands. Botrytis sprays are timed, so that no
 * interval is cut short there.
 */
function labelInterval(product: Product, disease: Disease): { long: number; short: number } | null {
  const interval = product.uses.find(({ against }) => against === disease)?.interval
  if (!interval) return null
  const isCut = product.protects === undefined && disease !== 'botrytis'
  return { long: interval.high, short: isCut ? interval.low : interval.high }
}

/** Days of an interval, and how many days after the spray the table stopped advising products of its class. */
interface IntervalDays {
  days: number | null
  notAdvised: number | null
}

/**
 * Days until the interval is over: that of the label or of the table for the highest index since the spray,
 * whichever is shorter. Of the label it is the short end once a day since the spray lay in the critical period or in
 * high danger (`isGrave`), else the long one (common practice, no source). `indexOn` gives the powdery index of a day
 * number, null where unknown, which then asks for nothing. Where the table advises no product of the class at such an index, the days of the band below it stand, so
 * that no higher index ever lengthens an interval, and `notAdvised` says from when.
 */
export function intervalDays(
  product: Product,
  disease: Disease,
  from: {
    sprayed: number
    indexOn: (day: number) => number | null
    isGrave: (day: number) => boolean
  },
): IntervalDays {
  const label = labelInterval(product, disease)
  const column = disease === 'powdery' ? productClass(product) : null
  if (column === null && (label === null || label.short === label.long))
    return { days: label?.long ?? null, notAdvised: null }
  let highest = 0
  let isCut = false
  let notAdvised: number | null = null
  for (let days = 0; days <= LONGEST; days++) {
    const day = from.sprayed + days
    highest = Math.max(highest, from.indexOn(day) ?? 0)
    isCut ||= label !== null && label.short < label.long && from.isGrave(day)
    const table = column && powderyInterval(highest, column)
    if (column && table === null) notAdvised ??= days
    const { longest } = table ??
      (column && powderyInterval(HIGHEST_MODERATE, column)) ?? { longest: Infinity }
    const limit = Math.min((isCut ? label?.short : label?.long) ?? Infinity, longest)
    // What rises later shortens what is left, and not what has been.
    if (days >= limit) return { days: limit > days - 1 ? limit : days, notAdvised }
  }
  return { days: label?.long ?? null, notAdvised }
}

/** Days after a spray on which rapid growth has gone on for as many as a contact deposit bears; null where it doesn't. */
export function growthDays(stages: readonly StageEntry[], sprayed: number): number | null {
  if (stages.length === 0) return null
  const seen = stages.map(({ date, stage }) => ({ day: dayOf(date), stage }))
  let rapid = 0
  for (let days = 1; days <= LONGEST; days++) {
    const stage = seen.findLast(({ day }) => day <= sprayed + days)?.stage
    if (stage !== undefined && stage >= RAPID_GROWTH.from && stage < RAPID_GROWTH.to) rapid++
    if (rapid >= RAPID_GROWTH.days) return days
  }
  return null
}
