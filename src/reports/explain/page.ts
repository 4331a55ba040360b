import type { Units } from '../../facts/ledger-units.ts'
import { upperFirst } from '../../facts/sentences.ts'
import { type Content, html, section } from '../../render/html/markup.ts'
import type { PageOf } from '../../render/html/page.ts'
import { folded } from '../../render/html/table.ts'
import { counted } from '../../render/text.ts'
import { type Explained, LISTED_TOPICS } from './everything.ts'
import { factsOf, whatText } from './shown.ts'

/** Every figure and finding asked for: what it is, how it is calculated, and where that comes from. */
export const page: PageOf<{ explained: Explained[] }> = ({ data: { explained } }, { units }) => {
  const topics = LISTED_TOPICS.map((topic) => ({
    topic,
    entries: explained.filter((one) => one.topic === topic),
  })).filter(({ entries }) => entries.length > 0)
  return {
    title: 'Where the figures come from',
    content: topics.map(({ topic, entries }) => {
      const all = entries.map((one) => entry(one, units))
      const count = counted(entries.length, 'entry', 'entries')
      return section(upperFirst(topic), topics.length === 1 ? all : folded(count, all, { filed: true }))
    }),
  }
}

function entry(one: Explained, units: Units): Content {
  const facts = factsOf(one, units)
  return html`<article>
<h3 id="${one.name}">${one.name}</h3>
<p>${whatText(one, units)}</p>
<dl class="facts">
${facts.map(([title, text]) => text !== undefined && html`<dt>${title}</dt><dd>${text}</dd>\n`)}</dl>
</article>
`
}
