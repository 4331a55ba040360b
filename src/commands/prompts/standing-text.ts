import type { PlainEntry, PlainValue } from '../../ledger/write/entry-text.ts'
import { dayNumber } from '../../records/date.ts'
import { ORGANS } from '../../records/kinds/scouting.ts'
import { spokenDate } from '../../records/spoken-date.ts'
import { lookedText } from './scouting-answers.ts'

/** The values of an entry, as they would be typed to answer its questions. */

const isMap = (value: PlainValue | undefined): value is PlainEntry =>
  typeof value === 'object' && !Array.isArray(value)

/** `Tue 29 Sep 2026`. */
export const dateText = (date: string): string =>
  dayNumber(date) === null ? date : `${spokenDate(date)} ${date.slice(0, 4)}`

/** `all`, `rows 1-8`, `spot 12 vines`: how much of a block was sprayed. */
export function partText({ method, rows, share, vines }: PlainEntry): string {
  const extent = [
    ...(rows === undefined ? [] : [`${/-/.test(String(rows)) ? 'rows' : 'row'} ${rows}`]),
    ...(share === undefined ? [] : [String(share)]),
    ...(vines === undefined ? [] : [`${vines} vines`]),
  ].join(' ')
  return [...(method === 'spot' ? ['spot'] : []), extent].join(' ').trim() || 'all'
}

/** `1.8 m/s SW 17 C 70 %`. */
export const weatherText = (weather: PlainValue | undefined): string =>
  isMap(weather)
    ? ['wind', 'from', 'temperature', 'humidity', 'sky'].flatMap((key) => weather[key] ?? []).join(' ')
    : ''

/** `50 bunches, 20 leaves in rows 3-8`. */
export function lookedAtText({ looked_at, rows }: PlainEntry): string {
  const text = isMap(looked_at) ? lookedText(looked_at as Parameters<typeof lookedText>[0]) : ''
  return rows === undefined || text === '' ? text : `${text} in rows ${rows}`
}

/** `powdery 4 bunches severity 3 % in rows 8-9, downy 0 leaves`. */
export function foundText(found: PlainValue | undefined): string {
  if (!isMap(found)) return ''
  return Object.entries(found)
    .flatMap(([disease, find]) => {
      if (!isMap(find)) return []
      const counts = ORGANS.flatMap((organ) =>
        find[organ] === undefined ? [] : [`${disease} ${find[organ]} ${organ}`],
      )
      const more = [
        ...(find.severity === undefined ? [] : [` severity ${find.severity}`]),
        ...(find.rows === undefined ? [] : [` in rows ${find.rows}`]),
      ].join('')
      return counts.map((count, at) => (at === 0 ? count + more : count))
    })
    .join(', ')
}
