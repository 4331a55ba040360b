import { shortDate } from '../../records/spoken-date.ts'
import { html } from '../../render/html/markup.ts'
import type { PageOf } from '../../render/html/page.ts'
import { pageTable } from '../../render/html/table.ts'
import type { CompareData } from './report.ts'
import { changeText, figureName, placeName, remarks, shownValue, unknownFigures } from './terminal.ts'

/** Every figure of every season, the most changed first. */
export const comparePage: PageOf<CompareData> = ({ data }, { names, units }) => {
  const { seasons, figures, upTo } = data
  const noted = remarks(data, names.blocks, units)
  const lacking = unknownFigures(data, names.blocks, units)
  const part = upTo.some(({ whole }) => !whole)
  return {
    title: `Seasons ${seasons.join(', ')}`,
    content: html`<section>
${part && html`<p>Each season is taken up to ${shortDate(upTo.at(-1)!.date)}.</p>\n`}${pageTable({
  caption: 'What changed, the most first',
  columns: [
    { title: 'figure' },
    { title: 'block' },
    ...seasons.map((season) => ({ title: String(season), number: true })),
    { title: 'change', number: true },
  ],
  rows: figures.map((one) => [
    figureName(one, units),
    placeName(one, names.blocks),
    ...one.values.map((_, index) => shownValue(one, index, units)),
    changeText(one, units),
  ]),
})}${noted.map((line) => html`<p>${line}</p>\n`)}${
  lacking.length > 0 &&
  html`<h2>Unknown</h2>
${lacking.map((line) => html`<p class="quiet">${line}</p>\n`)}`
}</section>
`,
  }
}
