import { shortDate } from '../../records/spoken-date.ts'
import { numbers } from '../../render/columns.ts'
import { type Content, html } from '../../render/html/markup.ts'
import type { PageInput, PageOf } from '../../render/html/page.ts'
import { folded, pageTable } from '../../render/html/table.ts'
import { counted } from '../../render/text.ts'
import type { CompareData, ComparedFigure } from './report.ts'
import {
  changeText,
  figureName,
  mostChanged,
  placeName,
  remarks,
  shownValue,
  unknownFigures,
} from './terminal.ts'

/** Rows shown on a phone before the rest is unfolded. */
const FIRST = 10

/** Every figure of every season, the most changed first. */
export const comparePage: PageOf<CompareData> = ({ data }, input) => {
  const { names, units } = input
  const { seasons, figures, upTo } = data
  const rest = figures.slice(FIRST)
  const noted = remarks(data, names.blocks, units)
  const lacking = unknownFigures(data, names.blocks, units)
  const part = upTo.some(({ whole }) => !whole)
  return {
    title: `Seasons ${seasons.join(', ')}`,
    ...(figures.length > 0 ? { answer: mostChanged(data, { names: names.blocks, units, most: 1 }) } : {}),
    content: html`<section>
${part && html`<p>Each season counts up to ${shortDate(upTo.at(-1)!.date)}.</p>\n`}${figureTable('The biggest changes first', figures.slice(0, FIRST), { seasons, input })}${
  rest.length > 0 &&
  folded(
    counted(rest.length, 'more figure'),
    figureTable('What changed less, or can’t be compared', rest, { seasons, input }),
    { filed: true },
  )
}${noted.map((line) => html`<p>${line}</p>\n`)}${
  lacking.length > 0 &&
  html`<h2>Unknown</h2>
${lacking.map((line) => html`<p class="quiet">${line}</p>\n`)}`
}</section>
`,
  }
}

function figureTable(
  caption: string,
  figures: readonly ComparedFigure[],
  { seasons, input: { names, units } }: { seasons: readonly number[]; input: PageInput },
): Content {
  return pageTable({
    caption,
    columns: [
      'figure',
      'block',
      ...seasons.map((season) => ({ title: String(season), number: true })),
      ...numbers('change'),
    ],
    rows: figures.map((one) => [
      figureName(one, units),
      placeName(one, names.blocks),
      ...one.values.map((_, index) => shownValue(one, index, units)),
      changeText(one, units),
    ]),
  })
}
