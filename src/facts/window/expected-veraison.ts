import { bloomBy, veraisonAfter } from '../../agronomy/heat/bloom-timing.ts'
import { VERAISON } from '../../agronomy/ripening/ripening-prior.ts'
import type { Ledger } from '../../ledger/read/ledger.ts'
import { dayOf } from '../../records/date.ts'
import { usualBloomOf } from '../danger/usual-bloom.ts'
import type { ReportInput } from '../report.ts'
import { brixByDay, samplesOf } from '../ripeness/samples.ts'
import { NORMAL_90 } from './readings.ts'
import { type HalfColour, halfColourOf } from './veraison.ts'

/** Stages close enough to bloom to date it: beginning to end of flowering (BBCH). */
const FLOWERING = { from: 61, to: 69 }
/**
 * Standard deviation of a block's day from season to season: 11 to 13 days in one cool district (field data, from
 * memory).
 */
const BETWEEN_SEASONS = 12
const DAYS_A_YEAR = 365.2425

/**
 * 50 % veraison where neither it nor a sample was noted: from flowering noted this season, else from past seasons of
 * the block, else from bloom by heat sum or calendar. A rough estimate: no spray or pick may depend on it.
 */
export function expectedColour(input: Omit<ReportInput, 'blocks'>, block: string): HalfColour {
  const { ledger, season, asOf } = input
  const flowering = ledger.stages
    .filter((entry) => entry.block === block && entry.season === season && entry.date <= asOf)
    .filter(({ stage }) => stage >= FLOWERING.from && stage <= FLOWERING.to)
    .map(({ stage, date }) => bloomBy(stage, dayOf(date)))
    .sort((a, b) => a.latest - a.earliest - (b.latest - b.earliest))[0]
  if (flowering) return { ...veraisonAfter(flowering), by: 'flowering' }
  return (
    byPastSeasons(ledger, { block, season }) ?? {
      ...veraisonAfter(usualBloomOf(input, block)),
      by: 'usual-bloom',
    }
  )
}

/** The mean day of 50 % veraison in past seasons, as noted, else from the first sample. */
function byPastSeasons(
  ledger: Ledger,
  { block, season }: { block: string; season: number },
): HalfColour | null {
  const entries = [...ledger.samples, ...ledger.stages].filter((entry) => entry.block === block)
  const past = new Set(entries.map((entry) => entry.season).filter((one) => one < season))
  const days = [...past].flatMap((one) => {
    const of = { block, season: one, asOf: '9999-12-31' }
    const first = brixByDay(samplesOf(ledger, of))[0]
    const sampled = first && dayOf(first.date) - (first.brix - VERAISON.brix) / VERAISON.perDay
    const day = halfColourOf(ledger, of)?.day ?? sampled
    return day === undefined ? [] : day + (season - one) * DAYS_A_YEAR
  })
  if (days.length === 0) return null
  const day = days.reduce((sum, one) => sum + one, 0) / days.length
  return { day, within: NORMAL_90 * BETWEEN_SEASONS * Math.sqrt(1 + 1 / days.length), by: 'past-dates' }
}
