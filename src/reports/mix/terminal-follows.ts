import { listed } from '../../facts/sentences.ts'
import { inBrackets, untilText } from '../../facts/spraying/re-entry.ts'
import type { IsoDate } from '../../records/date.ts'
import { longDate, shortDate, spokenDate, spokenDateAsOf, spokenTime } from '../../records/spoken-date.ts'
import { safeLine } from '../../render/safe.ts'
import type { Style } from '../../render/style.ts'
import { sentences } from '../../render/text.ts'
import { display } from '../../render/units.ts'
import type { MixAfter } from './after.ts'
import type { MixData } from './report.ts'

/** When people may enter, when to pick, when to spray again, and what is left in stock. */
export function follows({ after, products, recorded }: MixData, { units }: Style): string[] {
  if (!after) return []
  const year = after.date.slice(0, 4)
  const short = (date: IsoDate) => (date.startsWith(year) ? shortDate(date) : longDate(date))
  const name = (id: string) => safeLine(products.find(({ product }) => product === id)?.name ?? id)
  const when =
    after.ends === null
      ? `some time on ${spokenDate(after.date)}`
      : `until ${spokenTime(after.date, after.ends)}`
  const said: string[] = []
  if (after.reEntry) said.push(`keep out until ${untilText(after.reEntry)} ${inBrackets(after.reEntry)}`)
  if (after.harvest) {
    const { calendar, cautious, product, days } = after.harvest
    const both = calendar === cautious ? '' : ` (${short(calendar)} if the day of spraying counts as day 0)`
    const whose = products.length > 1 ? `, for ${name(product)}` : ''
    said.push(
      `pick from ${spokenDateAsOf(cautious, after.date)}${both}${whose} (pre-harvest interval, PHI: ${days} d)`,
    )
  }
  const again = after.next.filter(({ date }) => date !== null)
  if (again.length > 0)
    said.push(
      `again from ${listed(again.map(({ product, date }) => (products.length > 1 ? `${short(date!)} (${name(product)})` : short(date!))))}`,
    )
  const lines = recorded
    ? [
        `This spray of ${spokenDate(after.date)} is recorded already (${recorded.file}:${recorded.line}), and judged as that one. To spray the same again would be another application.`,
      ]
    : []
  if (said.length > 0) lines.push(`${recorded ? 'Sprayed' : 'If sprayed'} ${when}: ${said.join('; ')}.`)
  const unknown = sentences(
    after.reEntryUnknown.length > 0 && `re-entry interval (REI) of ${listed(after.reEntryUnknown.map(name))}`,
    after.harvestUnknown.length > 0 &&
      `pre-harvest interval (PHI) of ${listed(after.harvestUnknown.map(name))}`,
  )
  return sentences(
    lines,
    unknown.length > 0 && `Not in the records, so not counted: ${listed(unknown)}. See the label.`,
    after.stock.map((stock) => `Stock of ${name(stock.product)}: ${stockText(stock, units)}.`),
  )
}

function stockText({ left, after, unit }: MixAfter['stock'][number], units: Style['units']): string {
  if (left === null || after === null) return 'not known in the unit of the mix'
  const had = display({ value: left, unit }, units)
  return after < 0
    ? `${had}, ${display({ value: -after, unit }, units)} too little`
    : `${had} now, ${display({ value: after, unit }, units)} after this mix`
}
