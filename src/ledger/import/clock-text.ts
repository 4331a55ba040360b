import { dayNumber } from '../../records/date.ts'
import { timeForm } from '../weather/time.ts'

/** Seconds since 1970 between which a number can be a time: 1990 to 2100. */
const FIRST_SECOND = 631_152_000
const LAST_SECOND = 4_102_444_800
const FIRST_YEAR = '1990'

/** Months by their first letters in English, German, French, Dutch, Italian and Spanish, without accents. */
const MONTHS: readonly (readonly string[])[] = [
  ['jan', 'gen', 'ene'],
  ['feb', 'fev'],
  ['mar', 'mrz', 'maerz', 'mrt', 'maart'],
  ['apr', 'avr', 'abr'],
  ['may', 'mai', 'mei', 'mag'],
  ['jun', 'juin', 'giu'],
  ['jul', 'juil', 'lug'],
  ['aug', 'aou', 'ago'],
  ['sep', 'set'],
  ['oct', 'okt', 'ott'],
  ['nov'],
  ['dec', 'dez', 'dic'],
]

/**
 * Converts a time to a form that `timeReader` reads, from any form that exports use: `14 Jun 2026 1:30 PM`,
 * `20260614T1330`, `202606141330`, `14/06/2026 13h30`, `13.30`, and seconds or milliseconds since 1970 (in UTC).
 * @param isClock whether a bare `13.30` is a clock time, and no decimal number
 * @returns the text as it was where it is none of these
 */
export function asClock(text: string, isClock = false): string {
  const trimmed = withOffset(text.trim())
  if (timeForm(trimmed) !== null) return trimmed
  if (/^\d+(?:\.0+)?$/.test(trimmed)) return ofDigits(trimmed.replace(/\..*/, '')) ?? trimmed
  const basic = /^(\d{4})(\d{2})(\d{2})T(\d{2})(\d{2})(?:\d{2}(?:\.\d+)?)?(Z|[+-]\d{2}:?\d{2})?$/.exec(
    trimmed,
  )
  if (basic) return `${basic[1]}-${basic[2]}-${basic[3]} ${basic[4]}:${basic[5]}${basic[6] ?? ''}`
  const plain = withPlainClock(isClock ? trimmed.replace(/^(\d{1,2})\.(\d{2})$/, '$1:$2') : trimmed)
  return timeForm(plain) !== null ? plain : (withMonthAsNumber(plain) ?? trimmed)
}

/** Whether a text is a bare number that can be read as a time. */
export const isBareTime = (text: string): boolean => /^\d+(?:\.0+)?$/.test(text) && asClock(text) !== text

function ofDigits(digits: string): string | null {
  const compact = /^(\d{4})(\d{2})(\d{2})(?:(\d{2})(?:(\d{2})(?:\d{2})?)?)?$/.exec(digits)
  if (compact && compact[1]! >= FIRST_YEAR && Number(compact[4] ?? 0) < 24) {
    const [, year, month, day, hour, minute] = compact
    const date = `${year}-${month}-${day}`
    if (dayNumber(date) !== null) return hour === undefined ? date : `${date} ${hour}:${minute ?? '00'}`
  }
  const seconds = digits.length === 10 ? Number(digits) : digits.length === 13 ? Number(digits) / 1000 : 0
  if (seconds < FIRST_SECOND || seconds > LAST_SECOND) return null
  return `${new Date(seconds * 1000).toISOString().slice(0, 19).replace('T', ' ')}Z`
}

/** A time followed by a zone abbreviation or `+02`, rewritten with its full offset. */
function withOffset(text: string): string {
  const match = /^(.*\d)(?:\s*([+-]\d{2})| ?([A-Z]{3,4}))$/.exec(text)
  if (!match || !/\d:\d{2}/.test(match[1]!)) return text
  const offset = match[2] === undefined ? offsetIn(match[3]!) : `${match[2]}:00`
  return offset === null ? text : `${match[1]}${offset}`
}

/** `13h30`, `13.30`, `13 Uhr` as `13:30`; a comma after the date is dropped. */
const withPlainClock = (text: string): string =>
  text
    .replace(/^(\d{4})\. ?(\d{1,2})\. ?(\d{1,2})\.(?=\s|$)/, '$1-$2-$3')
    .replace(/,\s+(?=\d{1,2}\s*[:.h]\s*\d{2})/, ' ')
    .replace(/(^|[\sT])(\d{1,2})\s*(?:h|uhr)\s*$/i, '$1$2:00')
    .replace(/^(\d{1,2})h(\d{2})$/i, '$1:$2')
    .replace(/([\sT])(\d{1,2})[.h](\d{2})(?=(?:[.:]\d{2})?\s*(?:[ap]\.?m\.?)?$)/i, '$1$2:$3')
    .replace(/([ap])\.m\.$/i, '$1m')

const DAY_FIRST =
  /^(?:[a-z]{2,10}[.,]?\s+)?(?<day>\d{1,2})(?:\.|st|nd|rd|th)?[\s-]*(?<name>[a-z]{3,10})\.?,?[\s-]*(?<year>\d{4}|\d{2})\b(?<rest>.*)$/
const MONTH_FIRST =
  /^(?:[a-z]{2,10}[.,]?\s+)?(?<name>[a-z]{3,10})\.?[\s-]*(?<day>\d{1,2})(?:st|nd|rd|th)?,?[\s-]+(?<year>\d{4}|\d{2})\b(?<rest>.*)$/

/** `14 Jun 2026`, `14-Jun-26`, `14. Juni 2026`, `Jun 14, 2026`, optionally with a weekday before and a time after. */
function withMonthAsNumber(text: string): string | null {
  const plain = text.normalize('NFD').replace(/\p{M}/gu, '').toLowerCase()
  const parts = (DAY_FIRST.exec(plain) ?? MONTH_FIRST.exec(plain))?.groups
  if (!parts) return null
  const { day = '', name = '', year = '', rest = '' } = parts
  const month = MONTHS.findIndex((starts) => starts.some((start) => name.startsWith(start))) + 1
  if (month === 0) return null
  const date = `${year.padStart(4, '20')}-${String(month).padStart(2, '0')}-${day.padStart(2, '0')}`
  const made = `${date}${rest.replace(/^,?\s*(?:at\s+)?/, ' ').trimEnd()}`
  return timeForm(made) === null ? null : made
}

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
