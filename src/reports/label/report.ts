import { CAUTION, makeReport, type Report, type ReportInput } from '../../facts/report.ts'
import type { Named } from '../../ledger/read/ledger.ts'
import { placeOf } from '../../ledger/read/source.ts'
import { addDays, calendarDay, dayNumber, daysBetween, type IsoDate } from '../../records/date.ts'
import type { Product } from '../../records/kinds/product.ts'
import { labelGaps } from './gaps.ts'

/** An authorisation that ends within so many days is reported. */
const LAPSE_DAYS = 90

export type LabelReview = ReturnType<typeof review>

export interface LabelData {
  products: LabelReview[]
  lapsed: number
  lapsing: number
  old: number
  incomplete: number
}

/**
 * Which labels to read again: read more than a year ago or on no known day, an authorisation that ends within
 * 90 days, and records that lack what the rules check a spray against. Most urgent first.
 */
export function label(input: ReportInput): Report<LabelData> {
  const { ledger } = input
  const products = [...ledger.products.values()]
    .map((product) => review(product, input))
    .sort(
      (a, b) =>
        STATES.indexOf(a.state) - STATES.indexOf(b.state) ||
        Number(b.used) - Number(a.used) ||
        (a.product < b.product ? -1 : 1),
    )
  const count = (wanted: (one: LabelReview) => boolean) => products.filter(wanted).length
  const data = {
    products,
    lapsed: count(({ daysLeft }) => daysLeft !== null && daysLeft < 0),
    lapsing: count(({ daysLeft }) => daysLeft !== null && daysLeft >= 0 && daysLeft <= LAPSE_DAYS),
    old: count(({ old }) => old !== false),
    incomplete: count(({ missing }) => missing.length > 0),
  }
  return makeReport('label', input, { data, cautions: [CAUTION.dose] })
}

/** By urgency. */
const STATES = ['lapsed', 'lapses', 'read again', 'incomplete', 'sound'] as const

function review(product: Named<Product>, { ledger, asOf, season }: ReportInput) {
  const read = readOn(product.label)
  const old = read === null ? null : isOverAYear(read, asOf)
  const until = product.authorisation?.until ?? null
  const daysLeft = until === null ? null : daysBetween(asOf, until)
  const missing = labelGaps(product)
  const state: (typeof STATES)[number] =
    daysLeft !== null && daysLeft < 0
      ? 'lapsed'
      : daysLeft !== null && daysLeft <= LAPSE_DAYS
        ? 'lapses'
        : old !== false
          ? 'read again'
          : missing.length > 0
            ? 'incomplete'
            : 'sound'
  return {
    product: product.id,
    name: product.name,
    /** Where and when the figures were read, as written; null where nothing is. */
    label: product.label ?? null,
    /** The day they were read, or the first of the month where only that is written; null where neither is. */
    read,
    /** Whether that is more than a year ago; null where no date is written. */
    old,
    authorisedUntil: until,
    /** Days until the authorisation ends, negative where it has; null where no date is written. */
    daysLeft,
    state,
    /** Whether it was sprayed in the season. */
    used: ledger.sprays.some(
      (spray) =>
        spray.season === season &&
        spray.date <= asOf &&
        spray.products.some((part) => part.product === product.id),
    ),
    missing,
    file: placeOf(product.source).file,
  }
}

/** The last date or month in the text; a month counts from its first day, so that it is never taken for newer. */
function readOn(text: string | undefined): IsoDate | null {
  const dates = [...(text ?? '').matchAll(/\b(\d{4})-(\d{2})(?:-(\d{2}))?\b/g)].map(
    ([, year, month, day]) => `${year}-${month}-${day ?? '01'}`,
  )
  return dates.findLast((date) => dayNumber(date) !== null) ?? null
}

function isOverAYear(read: IsoDate, asOf: IsoDate): boolean {
  const same = `${Number(read.slice(0, 4)) + 1}${read.slice(4)}`
  const anniversary = calendarDay(same) === null ? addDays(`${same.slice(0, 4)}-02-28`, 1) : same
  return asOf > anniversary
}
