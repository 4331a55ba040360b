/** Columns that hold a date in parts. */
interface DateParts {
  year: number
  month: number
  day: number
  /** null in rows of days. */
  hour: number | null
  minute: number | null
}

const WORDS: Readonly<Record<keyof DateParts, RegExp>> = {
  year: /^(?:year|yyyy|yr|jahr|annee|jaar|anno|ano)$/,
  month: /^(?:month|mm|mo|monat|mois|maand|mese|mes)$/,
  day: /^(?:day|dd|day of month|tag|jour|dag|giorno|dia)$/,
  hour: /^(?:hour|hh|hhmm|hr|time|stunde|uhrzeit|heure|uur|tijd|ora|hora)$/,
  minute: /^(?:minute|min|mi|minuten?|minuut|minuto)$/,
}

const plainName = (name: string) =>
  name
    .normalize('NFD')
    .replace(/\p{M}/gu, '')
    .toLowerCase()
    .replace(/[^a-z]+/g, ' ')
    .trim()

/** Whether a heading names a clock time. */
export const isClockName = (name: string): boolean => WORDS.hour.test(plainName(name))

/** Finds the columns of year, month and day by their headings; null where one of them is missing. */
export function datePartsOf(names: readonly string[]): DateParts | null {
  const plain = names.map(plainName)
  const at = (key: keyof DateParts) => plain.findIndex((name) => WORDS[key].test(name))
  const [year, month, day] = [at('year'), at('month'), at('day')]
  if (year < 0 || month < 0 || day < 0) return null
  const found = (key: 'hour' | 'minute') => (at(key) < 0 ? null : at(key))
  return { year, month, day, hour: found('hour'), minute: found('hour') === null ? null : found('minute') }
}

/** Whether a row holds a year, a month and a day, each in a cell of its own. */
export const hasDateParts = (cells: readonly string[]): boolean =>
  cells.some((cell, at) => {
    if (!/^(?:19|20|21)\d{2}$/.test(cell)) return false
    const near = [at - 2, at - 1, at + 1, at + 2].map((place) => cells[place] ?? '')
    return near.filter((one) => /^\d{1,2}$/.test(one) && Number(one) >= 1 && Number(one) <= 31).length >= 2
  })

/** The time of a row from its parts: `2026-06-14 13:00`. Parts that aren't numbers stay as they are and are reported later. */
export function timeOfParts(cells: readonly string[], { year, month, day, hour, minute }: DateParts): string {
  const two = (at: number) => (cells[at] ?? '').trim().padStart(2, '0')
  const date = `${(cells[year] ?? '').trim()}-${two(month)}-${two(day)}`
  if (hour === null) return date
  const clock = two(hour)
  if (clock.includes(':')) return `${date} ${clock}`
  return `${date} ${clock}:${minute === null ? '00' : two(minute)}`
}
