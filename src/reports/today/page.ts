import { type Content, html, section } from '../../render/html/markup.ts'
import type { PageOf } from '../../render/html/page.ts'
import type { TodayItem, Urgency } from './item.ts'
import { oneAsk } from './one-ask.ts'
import type { TodayData } from './report.ts'

const HEADINGS: readonly (readonly [Urgency, string])[] = [
  ['now', 'Now'],
  ['soon', 'Soon'],
  ['plan', 'To plan'],
]

/** What is due, for the pocket: most urgent first, each with what to do next. */
export const page: PageOf<TodayData> = ({ data }) => {
  const all = data.station ? data.items : oneAsk(data.items)
  return { title: 'Today', content: HEADINGS.map(([urgency, heading]) => part(all, urgency, heading)) }
}

function part(all: readonly TodayItem[], urgency: Urgency, heading: string): Content {
  const items = all.filter((item) => item.urgency === urgency)
  return items.length > 0 && section(heading, html`<ul class="due">\n${items.map(dueItem)}</ul>\n`)
}

function dueItem({ text, next, also }: TodayItem): Content {
  // What to do next is most often a command; else it is said in words.
  const todo = (one: string) => (one.startsWith('rowbook ') ? html`<code>${one}</code>` : one)
  return html`<li><p>${text}</p>
${[next, ...also].map((one) => html`<p class="quiet">${todo(one)}</p>\n`)}</li>
`
}
