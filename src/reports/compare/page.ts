import { shortDate } from '../../records/spoken-date.ts'
import { html } from '../../render/html/markup.ts'
import type { PageOf } from '../../render/html/page.ts'
import { pageTable } from '../../render/html/table.ts'
import type { CompareData } from './report.ts'
import { changeText, placeName, remarks, shownValue, unknownFigures } from './terminal.ts'

/** Every figure of every season, the most changed first. */
export const comparePage: PageOf<CompareData> = ({ data }, { names, units }) => {
  const { seasons, figures, upTo } = data
  const noted = remarks(data, names.blocks)
  const lacking = unknownFigures(data, names.blocks)
  const part = upTo.some(({ whole }) => !whole)
  return {
    title: `Seasons ${seasons.join(', ')}`,
    content: html`<section>
${part && html`<p>Each season up to the same day, ${shortDate(upTo.at(-1)!.date)}.</p>\n`}${pageTable({
  caption: 'What changed, the most first',
  columns: [
    { title: 'figure' },
    { title: 'of' },
    ...seasons.map((season) => ({ title: String(season), number: true })),
    { title: 'change', number: true },
  ],
  rows: figures.map((one) => [
    one.figure,
    placeName(one, names.blocks),
    ...one.values.map((_, index) => shownValue(one, index, units)),
    changeText(one, units),
  ]),
})}${noted.length > 0 && html`<p>Note: ${noted.join('; ')}.</p>\n`}${lacking.length > 0 && html`<p class="quiet">Unknown: ${lacking.join('; ')}.</p>\n`}</section>
`,
  }
}
