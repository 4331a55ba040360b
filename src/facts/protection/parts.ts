import { daysBetween, type IsoDate } from '../../records/date.ts'
import { shortDate } from '../../records/spoken-date.ts'
import type { SprayCover } from './sprays.ts'

/** Whether a block is protected on a day, and by which spray that is decided. */
interface CoverState {
  /** Null where it can't be known, and `why` says why. */
  covered: boolean | null
  /** Share of the block that is protected, 0 to 1; null where unknown. */
  share: number | null
  /** Whether some of the block is surely protected, be it spots of unknown extent, and the whole of it surely not. */
  inPart: boolean
  /** The spray whose end opens the block again; null where the block isn't protected. */
  decider: SprayCover | null
  daysLeft: number | null
  why: string | null
}

/** Share of a block that counts as all of it: what rounding leaves. Our own choice. */
export const WHOLE = 0.999

/** Whether a spray surely protects on a day what it was put on. */
const lastsOn = (date: IsoDate, { date: sprayed, until, sureUntil }: SprayCover) =>
  sprayed <= date && (until ?? sureUntil ?? '') >= date

/** The parts that are protected on a day, and until when: `rows 8 to 9 until 18 Jul`. */
export function partsOn(date: IsoDate, sprays: readonly SprayCover[]): string[] {
  const still = sprays.filter((spray) => lastsOn(date, spray))
  return [
    ...new Set(
      still.map((spray) => `${partText(spray)} until ${shortDate((spray.until ?? spray.sureUntil)!)}`),
    ),
  ]
}

/** `rows 13 to 19`, or a share in per cent, where only that is written; `spots` for a spot spray of unknown extent. */
export function partText({ rows, share }: Part): string {
  if (rows) return rows.from === rows.to ? `row ${rows.from}` : `rows ${rows.from} to ${rows.to}`
  if (share === null) return 'a part'
  if (share === 0) return 'spots'
  return share < 0.01 ? 'less than 1 %' : `${Math.round(share * 100)} %`
}

/**
 * Adds up the sprays that still cover on a day, the one that lasts longest first, until all rows have one: the last
 * added decides how long the whole is protected. Parts written as shares may lie over one another, so that they are
 * never summed up into a whole: it is unknown then.
 */
export function coverOn(
  date: IsoDate,
  sprays: readonly SprayCover[],
  { rows }: { rows: number | null },
): CoverState {
  const past = sprays.filter((spray) => spray.date <= date)
  const sure = past
    .filter((spray) => lastsOn(date, spray))
    .sort((a, b) => ((a.until ?? '9999') > (b.until ?? '9999') ? -1 : 1))
  const enough = sure.findIndex((_, at) => leastShare(sure.slice(0, at + 1), rows) >= WHOLE)
  const decider = sure[enough]
  if (decider) {
    const daysLeft = decider.until === null ? null : daysBetween(date, decider.until)
    return { covered: true, share: 1, inPart: false, decider, daysLeft, why: null }
  }
  const open = past.filter((spray) => spray.until === null && (spray.atMost ?? '9999') >= date)
  const least = leastShare(sure, rows)
  const most = mostShare([...new Set([...sure, ...open])], rows)
  if (most < WHOLE)
    return {
      covered: false,
      share: most - least < 1e-9 ? least : null,
      inPart: sure.length > 0,
      decider: null,
      daysLeft: 0,
      why: null,
    }
  return {
    covered: null,
    share: null,
    inPart: false,
    decider: null,
    daysLeft: null,
    why: whyOpen(sure, rows),
  }
}

function whyOpen(sure: readonly SprayCover[], rows: number | null): string {
  if (mostShare(sure, rows) < WHOLE) return 'rain is missing'
  return sure.some(({ share }) => share === null)
    ? "rows were sprayed, but the block's number of rows is not recorded"
    : 'shares were sprayed, which may overlap: write `rows`'
}

type Part = Pick<SprayCover, 'rows' | 'share'>

/** Share of a block that parts treat at least: their rows together, or the largest share. */
function leastShare(parts: readonly Part[], rows: number | null): number {
  const shares = parts.map(({ share }) => share ?? 0)
  return Math.max(0, ...shares, rowsTogether(parts, rows))
}

/** Share that they can treat at most: shares side by side, and all of it where one is unknown. */
function mostShare(parts: readonly Part[], rows: number | null): number {
  if (parts.some(({ share }) => share === null)) return 1
  const byShare = parts.filter((part) => part.rows === null).reduce((sum, { share }) => sum + share!, 0)
  return Math.min(1, byShare + rowsTogether(parts, rows))
}

/** Share of the rows that parts written as rows treat together, each row once. */
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
