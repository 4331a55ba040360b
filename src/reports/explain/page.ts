import { type Content, html } from '../../render/html/markup.ts'
import type { PageOf } from '../../render/html/page.ts'
import { folded } from '../../render/html/table.ts'
import { counted } from '../../render/text.ts'
import { type Explained, LISTED_TOPICS, sourceAndBasis } from './everything.ts'

/** Every figure and finding asked for: what it is, how it is worked out, and where that comes from. */
export const explainPage: PageOf<{ explained: Explained[] }> = ({ data: { explained } }) => {
  const topics = LISTED_TOPICS.map((topic) => ({
    topic,
    entries: explained.filter((one) => one.topic === topic),
  })).filter(({ entries }) => entries.length > 0)
  return {
    title: 'Where the figures come from',
    content: topics.map(
      ({ topic, entries }) => html`<section>
<h2>${heading(topic)}</h2>
${topics.length === 1 ? entries.map(entry) : folded(counted(entries.length, 'entry', 'entries'), entries.map(entry), { filed: true })}</section>
`,
    ),
  }
}

function entry({ name, what, formula, units, limits, choices, source, basis, keys }: Explained): Content {
  const facts: [string, string | undefined][] = [
    ['formula', formula],
    ['units', units],
    ['limits', limits],
    ['choices', choices],
    ['source', sourceAndBasis({ source, basis })],
    ['in JSON', keys.length > 0 ? keys.join(', ') : undefined],
  ]
  return html`<article>
<h3 id="${name}">${name}</h3>
<p>${what}</p>
<dl class="facts">
${facts.map(([title, text]) => text !== undefined && html`<dt>${title}</dt><dd>${text}</dd>\n`)}</dl>
</article>
`
}

const heading = (topic: string) => `${topic[0]!.toUpperCase()}${topic.slice(1)}`
