import type { Style } from '../../render/style.ts'
import { counted, underAnswer, wrap } from '../../render/text.ts'
import { type Explained, LISTED_TOPICS } from './everything.ts'
import { factsOf, whatText } from './shown.ts'

/** What is known of one figure or finding. */
export function renderExplained(
  found: readonly Explained[],
  cautions: readonly string[],
  style: Style,
): string {
  return underAnswer(found.map((one) => renderOne(one, style)).join('\n'), cautions, style.columns)
}

function renderOne(one: Explained, { columns, paint, units }: Style): string {
  const lines = factsOf(one, units).flatMap(([title, text]) => {
    if (text === undefined) return []
    const body = wrap(text, columns, ' '.repeat(10))
    return [`${title.padEnd(10)}${body.trimStart()}`]
  })
  const head = one.kind === 'finding' ? `${paint.strong(one.name)} (finding)` : paint.strong(one.name)
  return `${head}\n${wrap(whatText(one, units), columns)}\n\n${lines.join('\n')}\n`
}

/** All names, by topic. */
export function renderNames(all: readonly Explained[], { columns, paint }: Style): string {
  const topics = LISTED_TOPICS.flatMap((topic) => {
    const names = all.filter((one) => one.topic === topic).map((one) => one.name)
    return names.length === 0 ? [] : [`${paint.strong(topic)}\n${wrap(names.join(', '), columns, '  ')}\n`]
  })
  const figures = all.filter((one) => one.kind === 'figure').length
  const head = `${counted(figures, 'figure')} and ${counted(all.length - figures, 'finding')} can be explained: \`rowbook explain NAME\`.`
  return `${wrap(head, columns)}\n\n${topics.join('\n')}`
}
