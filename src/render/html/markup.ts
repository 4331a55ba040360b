import { safe } from '../safe.ts'

/** Markup that is finished: nothing in it needs escaping any more. */
export class Markup {
  constructor(readonly text: string) {}
}

/** Content of a page: text is escaped, markup is kept, null and false print nothing. */
export type Content = Markup | string | number | null | undefined | false | readonly Content[]

/**
 * Builds HTML or SVG markup from a template. Inserted values are escaped for text and for quoted attributes
 * alike, control and direction characters are shown as escapes, and only `Markup` is kept as it is.
 */
export function html(parts: TemplateStringsArray, ...values: Content[]): Markup {
  return new Markup(parts.map((part, index) => part + written(values[index])).join(''))
}

const ENTITIES: Record<string, string> = {
  '&': '&amp;',
  '<': '&lt;',
  '>': '&gt;',
  '"': '&quot;',
  "'": '&#39;',
}

/** Escapes text for use between tags and in a quoted attribute. */
function escapeText(text: string): string {
  return safe(text).replace(/[&<>"']/g, (character) => ENTITIES[character]!)
}

function written(content: Content): string {
  if (content === null || content === undefined || content === false) return ''
  if (content instanceof Markup) return content.text
  if (typeof content === 'string') return escapeText(content)
  if (typeof content === 'number') return String(content)
  return content.map(written).join('')
}

/** A part of a page under its heading. */
export const section = (heading: Content, ...content: Content[]): Markup => html`<section>
<h2>${heading}</h2>
${content}</section>
`

/** Items one below the other. */
export const list = (items: readonly Content[]): Markup => html`<ul class="plain">
${items.map((item) => html`<li>${item}</li>\n`)}</ul>
`
