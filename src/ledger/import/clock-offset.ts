/** Time zone abbreviations and their offset from UTC; ambiguous ones (`BST`, `IST`) are left out. From memory. */
const CLOCKS: readonly [ahead: string, names: RegExp][] = [
  ['-08:00', /\bpst\b/i],
  ['-07:00', /\b(?:mst|pdt)\b/i],
  ['-06:00', /\bmdt\b/i],
  ['-05:00', /\b(?:est|cdt)\b/i],
  ['-04:00', /\bedt\b/i],
  ['Z', /\b(?:utc|gmt)\b/i],
  ['+01:00', /\b(?:mez|cet)\b/i],
  ['+02:00', /\b(?:mesz|cest|eet|sast)\b/i],
  ['+03:00', /\beest\b/i],
  ['+08:00', /\bawst\b/i],
  ['+10:00', /\baest\b/i],
  ['+11:00', /\baedt\b/i],
  ['+12:00', /\bnzst\b/i],
  ['+13:00', /\bnzdt\b/i],
]

/** Beside `GMT` it is the summer half of one clock; by itself it means several. */
const BRITISH_SUMMER = ['several', /\bbst\b/i] as const

/**
 * The UTC offset of a clock named in a text: `UTC`, `GMT+02:00`, `UTC -5`, `MEZ`; null where it names none, or
 * two, as `MEZ/MESZ` or `GMT/BST`, which is a clock that follows summer time.
 */
export function offsetIn(text: string): string | null {
  const written = Array.from(
    text.matchAll(/(?:\b(?:utc|gmt)|\/)\s*([+\-\u2212])\s*(\d{1,2})(?::?(\d{2}))?\b/gi),
    ([, sign, hours, minutes]) => `${sign === '+' ? '+' : '-'}${hours!.padStart(2, '0')}:${minutes ?? '00'}`,
  )
  const named = [...CLOCKS, BRITISH_SUMMER].flatMap(([ahead, names]) => (names.test(text) ? ahead : []))
  const all = new Set(written.length > 0 ? written : named)
  return all.size === 1 && !all.has(BRITISH_SUMMER[0]) ? [...all][0]! : null
}
