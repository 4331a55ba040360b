import { RIPE_ABOVE } from '../../agronomy/disease/oospore-ripeness.ts'
import { addDays, daysBetween, type IsoDate, latestOf } from '../../records/date.ts'
import type { Disease } from '../../records/disease.ts'
import { shortDate } from '../../records/spoken-date.ts'
import { type Oospores, oosporesOn } from '../disease/downy-oospores.ts'
import { type RoundRow, roundRows } from '../disease/round-rows.ts'
import { growingSpan } from '../heat/window.ts'
import { groupedBy } from '../judged.ts'
import type { ReportInput } from '../report.ts'
import { weatherInShort } from '../weather/in-short.ts'
import { sameVines } from './finds.ts'

/** Days from the start of growth in which overwintered inoculum is given as a reason. Our own choice. */
const EARLY_DAYS = 120
/** Days before the end of a season in which a round counts as its end. Common practice, no source. */
const LATE_DAYS = 120

/** Begins what a judgement says of a disease that was there when the season before ended. */
export const LAST_SEASON = 'found here at the end of last season'

/**
 * What overwintered of a disease, as reasons: that the last round of the season before still found it in the block
 * (common practice, no source), and whether downy's winter spores are ripe (French-Swiss advice, as `explain oospores`
 * cites it). Neither changes the class: spores that a heat sum calls unripe are no safety, and last year's disease may
 * be gone.
 */
export function winterOf(input: Omit<ReportInput, 'blocks'>) {
  const { ledger, season } = input
  const until = addDays(growingSpan(ledger.vineyard, season).from, EARLY_DAYS)
  const last = lastFinds(input)
  const known = new Map<IsoDate, Oospores>()
  const oospores = (date: IsoDate): Oospores => {
    const { days } = weatherInShort(ledger, season)
    const made = known.get(date) ?? oosporesOn(days, { latitude: ledger.vineyard.latitude, to: date })
    known.set(date, made)
    return made
  }
  return (block: string, disease: Disease, date: IsoDate): string[] => {
    if (date > until) return []
    const own = last.filter((one) => one.block === block && one.disease === disease)
    const seen = latestOf(own.map((one) => one.date))
    const lines = seen ? [`${LAST_SEASON}, ${shortDate(seen)} ${seen.slice(0, 4)}`] : []
    if (disease !== 'downy') return lines
    const { ripe, sum, ripeOn } = oospores(date)
    if (ripe === true) return [...lines, `winter spores ripe${ripeOn ? ` since ${shortDate(ripeOn)}` : ''}`]
    return ripe === false
      ? [...lines, `winter spores not ripe yet (${sum!.toFixed(0)} of ${RIPE_ABOVE} °C-days)`]
      : lines
  }
}

/**
 * What the last round of each organ found at the end of the season before, which may overwinter in buds, bark and litter.
 * Empty where the report didn't read the rounds of that season.
 */
function lastFinds({ ledger, season }: Omit<ReportInput, 'blocks'>): RoundRow[] {
  const rows = ledger.scouting.filter((walk) => walk.season === season - 1).flatMap(roundRows)
  const end = rows.at(-1)?.date
  return [...groupedBy(rows, sameVines).values()].flatMap((own) => {
    const { date } = own.at(-1)!
    return daysBetween(date, end!) > LATE_DAYS ? [] : own.filter((row) => row.date === date && row.found > 0)
  })
}
