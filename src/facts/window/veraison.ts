import { bloomBy, veraisonAfter } from '../../agronomy/heat/bloom-timing.ts'
import { VERAISON } from '../../agronomy/ripening/ripening-prior.ts'
import { veraisonDay } from '../../agronomy/ripening/veraison-day.ts'
import { normalQuantile } from '../../agronomy/statistics/normal.ts'
import type { Ledger, StageEntry } from '../../ledger/read/ledger.ts'
import { dayOf } from '../../records/date.ts'
import { type BlockSeason, entriesOf } from '../block-entries.ts'
import { usualBloomOf } from '../danger/usual-bloom.ts'
import type { ReportInput } from '../report.ts'
import { sampleDays } from '../ripeness/sample-day.ts'
import { samplesOf } from '../ripeness/samples.ts'

/** BBCH 81 beginning of ripening, 83 berries colouring: what a note of veraison is taken from. */
const COLOURING = new Set([81, 83])
/** Stages close enough to bloom to date it: beginning to end of flowering (BBCH). */
const FLOWERING = { from: 61, to: 69 }
/**
 * Standard deviation of a block's day from season to season: 11 to 13 days in one cool district (field data, from
 * memory).
 */
const BETWEEN_SEASONS = 12
const DAYS_A_YEAR = 365.2425
/** Half the width of a 90 % interval, in standard deviations. */
export const NORMAL_90 = normalQuantile(0.95)

/** The day number of 50 % veraison, and the half-width of its 90 % interval, days. */
export interface HalfColour {
  day: number
  within: number
  /** Its basis: a note of veraison or flowering, dates of past seasons, or bloom by heat sum or calendar. */
  by: 'veraison' | 'flowering' | 'past-dates' | 'usual-bloom'
}

/** 50 % veraison of a block in a season, from the note nearest to it; null where there is none. */
export function halfColourOf(ledger: Ledger, of: BlockSeason): HalfColour | null {
  const best = entriesOf(ledger.stages, of)
    .filter((entry) => COLOURING.has(entry.stage) && isUsable(entry))
    .sort((a, b) => awayFromHalf(a) - awayFromHalf(b))[0]
  if (!best) return null
  const share = best.share === undefined ? {} : { share: best.share / 100 }
  return { ...veraisonDay({ day: dayOf(best.date), ...share }), by: 'veraison' }
}

const isUsable = ({ share }: StageEntry) => share === undefined || (share > 0 && share < 100)
/** A bare 83 is nearer to half than a bare 81; a counted share is most precise. */
const awayFromHalf = ({ share, stage }: StageEntry) =>
  share === undefined ? (stage === 83 ? 48 : 49) : Math.abs(share - 50)

/**
 * 50 % veraison where neither it nor a sample was noted: from flowering noted this season, else from past seasons of
 * the block, else from bloom by heat sum or calendar. A rough estimate: no spray or pick may depend on it.
 */
export function expectedColour(input: Omit<ReportInput, 'blocks'>, block: string): HalfColour {
  const flowering = entriesOf(input.ledger.stages, { ...input, block })
    .filter(({ stage }) => stage >= FLOWERING.from && stage <= FLOWERING.to)
    .map(({ stage, date }) => bloomBy(stage, dayOf(date)))
    .sort((a, b) => a.latest - a.earliest - (b.latest - b.earliest))[0]
  if (flowering) return { ...veraisonAfter(flowering), by: 'flowering' }
  return (
    byPastSeasons(input.ledger, { ...input, block }) ?? {
      ...veraisonAfter(usualBloomOf(input, block)),
      by: 'usual-bloom',
    }
  )
}

/** The mean day of 50 % veraison in past seasons, as noted, else from the first sample. */
function byPastSeasons(ledger: Ledger, { block, season }: BlockSeason): HalfColour | null {
  const entries = [...ledger.samples, ...ledger.stages].filter((entry) => entry.block === block)
  const past = new Set(entries.map((entry) => entry.season).filter((one) => one < season))
  const days = [...past].flatMap((one) => {
    const of = { block, season: one }
    const first = sampleDays(samplesOf(ledger, of), 'brix')[0]
    const sampled = first && dayOf(first.date) - (first.mean - VERAISON.brix) / VERAISON.perDay
    const day = halfColourOf(ledger, of)?.day ?? sampled
    return day === undefined ? [] : day + (season - one) * DAYS_A_YEAR
  })
  if (days.length === 0) return null
  const day = days.reduce((sum, one) => sum + one, 0) / days.length
  return { day, within: NORMAL_90 * BETWEEN_SEASONS * Math.sqrt(1 + 1 / days.length), by: 'past-dates' }
}
