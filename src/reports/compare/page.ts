import { html } from '../../render/html/markup.ts'
import type { PageOf } from '../../render/html/page.ts'
import { folded, pageTable } from '../../render/html/table.ts'
import { counted } from '../../render/text.ts'
import type { CompareData } from './report.ts'
import { figureColumns, mostChanged, notesOf, partText } from './terminal.ts'

/** Rows shown on a phone before the rest is unfolded. */
const FIRST = 10

/** Every figure of every season, the most changed first. */
export const page: PageOf<CompareData> = ({ data }, { names: { blocks: names }, units }) => {
  const { seasons, figures } = data
  const rest = figures.slice(FIRST)
  const { noted, lacking } = notesOf(data, names, units)
  const part = partText(data)
  const columns = figureColumns({ seasons, names, units })
  const table = (caption: string, some: typeof figures) => pageTable(caption, some, columns)
  return {
    title: `Seasons ${seasons.join(', ')}`,
    ...(figures.length > 0 ? { answer: mostChanged(data, { names, units, most: 1 }) } : {}),
    content: html`<section>
${part && html`<p>${part}</p>\n`}${table('The biggest changes first', figures.slice(0, FIRST))}${
  rest.length > 0 &&
  folded(counted(rest.length, 'more figure'), table('What changed less, or can’t be compared', rest), {
    filed: true,
  })
}${noted.map((line) => html`<p>${line}</p>\n`)}${
  lacking.length > 0 &&
  html`<h2>Unknown</h2>
${lacking.map((line) => html`<p class="quiet">${line}</p>\n`)}`
}</section>
`,
  }
}
