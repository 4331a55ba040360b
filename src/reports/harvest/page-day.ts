import { shortDate } from '../../records/spoken-date.ts'
import { clockText } from '../../records/time-range.ts'
import { nameOf } from '../../render/html/figures.ts'
import { type Content, html } from '../../render/html/markup.ts'
import type { PageInput } from '../../render/html/page.ts'
import { pageTable } from '../../render/html/table.ts'
import { PLAIN } from '../../render/style.ts'
import type { HarvestData } from './report.ts'
import { dayLines } from './terminal-day.ts'

/** The day by the hour: blocks in their order, then people, buckets, clippers, and what isn't picked on it. */
export function dayPart(data: HarvestData, { names, units }: PageInput): Content {
  const lines = dayLines(data, names.blocks, { columns: 80, units, paint: PLAIN })
  if (lines.length === 0) return null
  const steps = data.day?.steps ?? []
  return html`<section>
<h2>Picking day</h2>
${
  steps.length > 0 &&
  pageTable({
    caption: 'Blocks in their order; the times count no breaks',
    columns: ['block', 'day', 'from', 'to'].map((title) => ({ title })),
    rows: steps.map(({ block, date, from, to }) => [
      nameOf(names, block),
      shortDate(date),
      clockText(from),
      clockText(to),
    ]),
  })
}<ul class="plain">
${lines.map((line) => html`<li>${line}</li>\n`)}</ul>
</section>
`
}
