/** A figure for a sentence, to four significant digits. */
export function figureText(value: number, unit = ''): string {
  const text = String(Number(value.toPrecision(4)))
  return unit === '' ? text : `${text} ${unit}`
}

/** `1 day`, `2 days`. */
export const daysText = (days: number): string => `${days} day${days === 1 ? '' : 's'}`

/** A range for a sentence. */
export function rangeText(range: { low: number; high: number; unit: string }): string {
  if (range.low === range.high) return figureText(range.high, range.unit)
  return `${figureText(range.low)}-${figureText(range.high, range.unit)}`
}

/** How far a figure is over a limit: `1.2 times`, or `above` where the ratio is close to 1 or undefined. */
export const above = (value: number, limit: number): string =>
  limit === 0 || value / limit < 1.05 ? 'above' : `${Number((value / limit).toPrecision(2))} times`

/** `a`, `a and b`, `a, b and c`. */
export function listed(words: readonly string[]): string {
  return words.length < 2 ? words.join('') : `${words.slice(0, -1).join(', ')} and ${words.at(-1)}`
}

/** Each part as a sentence of its own: `Powdery on 4 of 100 bunches. Not known: growth stage.` */
export const asSentences = (parts: readonly string[]): string =>
  parts.map((part) => `${/^pH\b/.test(part) ? part : upperFirst(part)}.`).join(' ')

/** What a judgement is missing, as its last reason: `not known: growth stage, leaf wetness (needs hourly weather)`. */
export const notKnown = (unknown: readonly string[]): string[] =>
  unknown.length === 0
    ? []
    : [`not known: ${unknown.map((what) => what.replace(/: (.*)/, ' ($1)')).join(', ')}`]

export const upperFirst = (text: string): string => text.charAt(0).toUpperCase() + text.slice(1)
