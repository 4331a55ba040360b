/** Tags inside which text stays as it is, or in a drawing takes no tags. */
const KEPT = new Set(['style', 'script', 'title', 'code', 'svg'])

/** Units and words that stay on the line of their number. */
const UNIT =
  'kg|g|mg|t|lb|oz|L|mL|hL|US|imp|ha|acres?|m2|m3|mm|cm|m|km|ft|in|h|min|s|d|days?|weeks?|hours?|Brix|Oechsle|crates|buckets|people|vines|berries|bunches|leaves|Jan|Feb|Mar|Apr|May|Jun|Jul|Aug|Sep|Oct|Nov|Dec'

/** Inside a unit of several words, between a weekday and its date, and between a month and its year. */
const INSIDE =
  /(?<=\b(?:US|imp)) (?=gal|fl|pt|qt|ton)|(?<=\bfl) (?=oz)|(?<=\b(?:Mon|Tue|Wed|Thu|Fri|Sat|Sun)) (?=\d)|(?<=\d [A-Z][a-z]{2}) (?=\d{4}(?!\d))/g
const BEFORE_UNIT = new RegExp(`(?<=\\d) (?=(?:${UNIT})(?![A-Za-z])|[%°])`, 'g')
const THOUSANDS = /(?<=\d) (?=\d{3}(?!\d))/g
/** A short range, which a browser would else break at its hyphen. */
const RANGE = /(?<![\w.-])\d{1,2}(?:\.\d)?-\d{1,2}(?:\.\d)?(?![\w.-]*\d)/g
/** Text between backticks in the terminal is shown as code. */
const QUOTED = /`([^`]+)`/g
/** A command option, which a browser would otherwise break at its hyphens. */
const OPTION = /--[a-z][a-z-]*/g

/**
 * The text of a page as it is set: numbers stay with their thousands, units and months on one line, what is quoted as
 * code becomes code, and short ranges and options of commands don't break. Tags, attributes and the style stay as they
 * are.
 */
export function typeset(page: string): string {
  const open: string[] = []
  return page
    .split(/(<[^<>]*>)/)
    .map((part) => {
      if (!part.startsWith('<')) return setText(part, open.at(-1))
      const [, closing, name] = /^<(\/?)([a-z0-9]+)/i.exec(part) ?? []
      if (name && KEPT.has(name)) closing ? open.pop() : open.push(name)
      return part
    })
    .join('')
}

function setText(text: string, inside: string | undefined): string {
  if (inside === 'code') return unbroken(text)
  if (inside === 'svg') return together(text)
  if (inside !== undefined) return text
  return text
    .split(QUOTED)
    .map((part, index) =>
      index % 2 === 1 ? `<code>${unbroken(part)}</code>` : together(part).replace(RANGE, WHOLE),
    )
    .join('')
}

const WHOLE = '<span class="whole">$&</span>'

const together = (text: string) =>
  text.replace(INSIDE, '\u00a0').replace(THOUSANDS, '\u00a0').replace(BEFORE_UNIT, '\u00a0')

const unbroken = (text: string) => text.replace(OPTION, WHOLE)
