import type { TodayItem } from './item.ts'

/** What a plot without a weather station is asked for. */
export const NOTE_WEATHER = 'rowbook note weather'

/** Requests in order, with the word for each when it comes later. */
const WORDS: Partial<Record<TodayItem['what'], string>> = {
  pressure: 'weather',
  stage: 'growth stage',
  walk: 'scouting round',
  sample: 'sample',
}

/**
 * For a plot without a station, asks for one record at a time: the first due, followed by a few words on what comes
 * next. Everything else stays.
 */
export function oneAsk(items: readonly TodayItem[]): TodayItem[] {
  const asks = items.filter(
    ({ what, next }) => WORDS[what] !== undefined && (what !== 'pressure' || next === NOTE_WEATHER),
  )
  const [first, ...rest] = asks
  if (!first) return [...items]
  const words = new Set(rest.map(({ what }) => WORDS[what]!))
  words.delete(WORDS[first.what]!)
  const after = words.size === 0 ? '' : ` Then: ${[...words].join(', ')}.`
  const one = { ...first, text: `${first.text}${after}`, short: `${first.short ?? first.text}${after}` }
  return items.flatMap((item) => (item === first ? [one] : asks.includes(item) ? [] : [item]))
}
