import { RIPE_ABOVE } from '../../agronomy/disease/oospore-ripeness.ts'
import { addDays, type IsoDate } from '../../records/date.ts'
import type { Disease } from '../../records/disease.ts'
import { shortDate } from '../../records/spoken-date.ts'
import { type Oospores, oosporesOn } from '../disease/downy-oospores.ts'
import { growingSpan } from '../heat/window.ts'
import type { ReportInput } from '../report.ts'
import { weatherInShort } from '../weather/in-short.ts'
import { lastYears } from './finds.ts'

/** Days from the start of growth in which overwintered inoculum is given as a reason. Our own choice. */
const EARLY_DAYS = 120

/**
 * What overwintered of a disease, as reasons: that the last round of the season before still found it in the block
 * (common practice, no source), and whether downy's winter spores are ripe (French-Swiss advice, as `explain oospores`
 * cites it). Neither changes the class: spores that a heat sum calls unripe are no safety, and last year's disease may
 * be gone.
 */
export function winterOf(input: Omit<ReportInput, 'blocks'>) {
  const { ledger, season } = input
  const { from } = growingSpan(ledger.vineyard, season)
  const last = lastYears(input)
  const until = addDays(from, EARLY_DAYS)
  const known = new Map<IsoDate, Oospores>()
  const oospores = (date: IsoDate): Oospores => {
    const { days } = weatherInShort(ledger, season)
    const made = known.get(date) ?? oosporesOn(days, { latitude: ledger.vineyard.latitude, to: date })
    known.set(date, made)
    return made
  }
  return (block: string, disease: Disease, date: IsoDate): string[] => {
    if (date > until) return []
    const seen = last.filter((one) => one.block === block && one.disease === disease).at(-1)
    const lines = seen
      ? [`found here at the end of last season, ${shortDate(seen.date)} ${seen.date.slice(0, 4)}`]
      : []
    if (disease !== 'downy') return lines
    const { ripe, sum, ripeOn } = oospores(date)
    if (ripe === true) return [...lines, `winter spores ripe${ripeOn ? ` since ${shortDate(ripeOn)}` : ''}`]
    return ripe === false
      ? [...lines, `winter spores not ripe yet (${sum!.toFixed(0)} of ${RIPE_ABOVE} °C-days)`]
      : lines
  }
}
