import { daysBetween, type IsoDate } from '../../records/date.ts'
import { shortDate } from '../../records/spoken-date.ts'
import type { CoverDay } from './day.ts'
import type { SprayCover } from './sprays.ts'

/** Whether a block is protected on a day, and the spray whose end leaves it unprotected; null where it isn't protected. */
type CoverState = Pick<CoverDay, 'covered' | 'share' | 'inPart' | 'daysLeft' | 'why'> & {
  decider: SprayCover | null
}

/** Share from which a block counts as whole, to allow for rounding. Our own choice. */
export const WHOLE = 0.999

/** Whether a spray certainly protects the vines it was put on, on a day. */
const lastsOn = (date: IsoDate, { date: sprayed, until, sureUntil }: SprayCover) =>
  sprayed <= date && (until ?? sureUntil ?? '') >= date

/** The parts that are protected on a day, and until when: `rows 8 to 9 until 18 Jul`. */
export function partsOn(date: IsoDate, sprays: readonly SprayCover[]): string[] {
  const parts = sprays
    .filter((spray) => lastsOn(date, spray))
    .map((spray) => `${partText(spray)} until ${shortDate((spray.until ?? spray.sureUntil)!)}`)
  return [...new Set(parts)]
}

/** `rows 13 to 19`; a share in per cent where only that is written; `spots` for a spot spray of unknown extent. */
export function partText({ rows, share }: Part): string {
  if (rows) return rows.from === rows.to ? `row ${rows.from}` : `rows ${rows.from} to ${rows.to}`
  if (share === null) return 'a part'
  if (share === 0) return 'spots'
  return share < 0.01 ? 'less than 1 %' : `${Math.round(share * 100)} %`
}

/**
 * Adds up the sprays that still protect on a day, the longest-lasting first, until all rows have one: the last
 * one added decides how long the whole block is protected. Parts written as shares may overlap, so they are
 * never added up to a whole: the answer is then unknown.
 */
export function coverOn(
  date: IsoDate,
  sprays: readonly SprayCover[],
  { rows }: { rows: number | null },
): CoverState {
  const sure = sprays
    .filter((spray) => lastsOn(date, spray))
    .sort((a, b) => ((a.until ?? '9999') > (b.until ?? '9999') ? -1 : 1))
  const decider = sure.find((_, at) => leastShare(sure.slice(0, at + 1), rows) >= WHOLE)
  if (decider) {
    const daysLeft = decider.until === null ? null : daysBetween(date, decider.until)
    return { covered: true, share: 1, inPart: false, decider, daysLeft, why: null }
  }
  const open = sprays.filter(
    (spray) => spray.date <= date && spray.until === null && (spray.atMost ?? '9999') >= date,
  )
  const most = mostShare([...new Set([...sure, ...open])], rows)
  const unknown = { covered: null, share: null, inPart: false, decider: null, daysLeft: null }
  if (most >= WHOLE) return { ...unknown, why: whyOpen(sure, rows) }
  const least = leastShare(sure, rows)
  const share = most - least < 1e-9 ? least : null
  return { ...unknown, covered: false, share, inPart: sure.length > 0, daysLeft: 0, why: null }
}

function whyOpen(sure: readonly SprayCover[], rows: number | null): string {
  if (mostShare(sure, rows) < WHOLE) return 'rain is missing'
  return sure.some(({ share }) => share === null)
    ? "rows were sprayed, but the block's number of rows is not recorded"
    : 'shares were sprayed, which may overlap: write `rows`'
}

type Part = Pick<SprayCover, 'rows' | 'share'>

/** Smallest share of a block that the parts can treat: their rows together, or the largest share. */
function leastShare(parts: readonly Part[], rows: number | null): number {
  const shares = parts.map(({ share }) => share ?? 0)
  return Math.max(0, ...shares, rowsTogether(parts, rows))
}

/** Largest share that they can treat: shares side by side, and the whole where one is unknown. */
function mostShare(parts: readonly Part[], rows: number | null): number {
  if (parts.some(({ share }) => share === null)) return 1
  const byShare = parts.filter((part) => part.rows === null).reduce((sum, { share }) => sum + share!, 0)
  return Math.min(1, byShare + rowsTogether(parts, rows))
}

/** Share of the rows treated by parts written as rows, each row counted once. */
function rowsTogether(parts: readonly Part[], rows: number | null): number {
  if (rows === null) return 0
  const spans = parts.flatMap((part) => part.rows ?? []).sort((a, b) => a.from - b.from)
  let treated = 0
  let last = 0
  for (const { from, to } of spans) {
    const end = Math.min(to, rows)
    treated += Math.max(0, end - Math.max(last, from - 1))
    last = Math.max(last, end)
  }
  return treated / rows
}
