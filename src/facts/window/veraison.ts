import { veraisonDay } from '../../agronomy/ripening/veraison-day.ts'
import type { Ledger, StageEntry } from '../../ledger/read/ledger.ts'
import { dayOf, type IsoDate } from '../../records/date.ts'

/** BBCH 81 beginning of ripening, 83 berries colouring: what a note of veraison is taken from. */
const COLOURING = new Set([81, 83])

/** The day number of 50 % veraison, and the half-width of its 90 % interval, days. */
export interface HalfColour {
  day: number
  within: number
  /** Its basis: a note of veraison or flowering, dates of past seasons, or bloom by heat sum or calendar. */
  by: 'veraison' | 'flowering' | 'past-dates' | 'usual-bloom'
}

/** 50 % veraison of a block in a season, from the note nearest to it; null where there is none. */
export function halfColourOf(
  ledger: Ledger,
  { block, season, asOf }: { block: string; season: number; asOf: IsoDate },
): HalfColour | null {
  const best = ledger.stages
    .filter((entry) => entry.block === block && entry.season === season && entry.date <= asOf)
    .filter((entry) => COLOURING.has(entry.stage) && isUsable(entry))
    .toSorted((a, b) => awayFromHalf(a) - awayFromHalf(b))[0]
  if (!best) return null
  const share = best.share === undefined ? {} : { share: best.share / 100 }
  return { ...veraisonDay({ day: dayOf(best.date), ...share }), by: 'veraison' }
}

const isUsable = ({ share }: StageEntry) => share === undefined || (share > 0 && share < 100)
/** A bare 83 is nearer to half than a bare 81; a counted share is most precise. */
const awayFromHalf = ({ share, stage }: StageEntry) =>
  share === undefined ? (stage === 83 ? 48 : 49) : Math.abs(share - 50)
