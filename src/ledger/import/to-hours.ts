import { clockChanges } from '../../records/zone.ts'
import { MEASURED, possible } from '../weather/columns.ts'
import { hoursOf } from '../weather/hours.ts'
import { emptyTable, hourOfRow, type WeatherTable } from '../weather/table.ts'

/** Rows of an export combined into hours. */
export interface ToHours {
  rows: WeatherTable
  /** Usual minutes between rows; null for days, and for a single row. */
  step: number | null
  /** Incomplete hours at the ends of the file, left out. */
  cut: { day: number; hour: number }[]
  /** Hours without a single reading, left out. */
  empty: number
  /** Hours with so many missing readings that at least one sum or mean is unknown. */
  partly: number
  /** Rows left out because an earlier row has the same time. */
  twice: number
}

/** Row indexes in time order; an export with the newest row first is reversed. */
export function inTimeOrder(rows: WeatherTable): number[] {
  const order = Array.from({ length: rows.length }, (_, row) => row)
  const isBefore = (a: number, b: number) =>
    hourOfRow(rows, a) - hourOfRow(rows, b) || rows.minute[a]! - rows.minute[b]!
  if (order.length > 1 && isBefore(order[0]!, order.at(-1)!) > 0) order.reverse()
  const isOrdered = order.every(
    (row, at) => at === 0 || hourOfRow(rows, row) >= hourOfRow(rows, order[at - 1]!),
  )
  return isOrdered ? order : order.sort(isBefore)
}

/** Treats rows whose clock time never changes as whole days. */
export function asDays(rows: WeatherTable): void {
  rows.hour.fill(-1)
  rows.minute.fill(0)
}

/** Turns a running total of rain into rain per row; the first row, and one after a gap, are unknown. */
export function risesOf(rows: WeatherTable, order: readonly number[]): void {
  const { rain } = rows.readings
  if (!rain) return
  const counted = rain.slice()
  const most = possible('rain', { hourly: true }).high
  const step = stepOf(rows, order)
  for (const [at, row] of order.entries()) {
    const before = at === 0 ? undefined : order[at - 1]!
    const [now, was] = [counted[row]!, before === undefined ? Number.NaN : counted[before]!]
    const isNext = before !== undefined && minuteOf(rows, row) - minuteOf(rows, before) === step
    // Where the total drops, it was reset: what it shows has fallen since.
    const fell = !isNext || Number.isNaN(was) ? Number.NaN : now >= was ? now - was : now
    rain[row] = fell <= most ? fell : Number.NaN
  }
}

/** Combines rows of less than an hour into hours. Hours cut off at the file's ends are left for the next export. */
export function broughtToHours(
  rows: WeatherTable,
  all: readonly number[],
  zone: string | undefined,
): ToHours {
  const step = stepOf(rows, all)
  const isDaily = rows.length > 0 && rows.hour[all[0]!]! < 0
  const order = eachOnce(rows, all, zone)
  const twice = all.length - order.length
  if (isDaily || step === null || step >= 60) {
    const isAsRead = twice === 0 && order.every((row, at) => row === at)
    const sorted = isAsRead ? rows : picked(rows, order)
    return { rows: sorted, step: isDaily ? null : step, cut: [], empty: 0, partly: 0, twice }
  }
  const hourly = hoursOf(rows, order, { zone, complain: () => {} }).table
  const counts = new Map<number, number>()
  for (const row of order) counts.set(hourOfRow(rows, row), (counts.get(hourOfRow(rows, row)) ?? 0) + 1)
  const whole = [...counts.values()].reduce((most, count) => Math.max(most, count), 0)
  const measured = MEASURED.filter((key) => hourly.readings[key])
  const places = Array.from({ length: hourly.length }, (_, at) => at)
  const ends = new Set(
    [0, hourly.length - 1].filter((at) => counts.get(hourOfRow(hourly, at))! < Math.min(whole, 60 / step)),
  )
  const known = (at: number) => measured.filter((key) => !Number.isNaN(hourly.readings[key]![at]!)).length
  const kept = places.filter((at) => !ends.has(at) && known(at) > 0)
  const cut = [...ends].map((at) => ({ day: hourly.day[at]!, hour: hourly.hour[at]! }))
  const empty = places.filter((at) => !ends.has(at) && known(at) === 0).length
  const partly = kept.filter((at) => known(at) < measured.length).length
  return { rows: picked(hourly, kept), step, cut, empty, partly, twice }
}

/** The first row of each time, and also the second where clocks go back and repeat the hour. */
function eachOnce(rows: WeatherTable, order: readonly number[], zone: string | undefined): readonly number[] {
  const seen = new Map<number, number>()
  let repeated: ReadonlySet<number> | null = null
  const isClockPutBack = (row: number) => {
    repeated ??=
      zone === undefined
        ? new Set()
        : clockChanges(zone, rows.day[order[0]!]!, rows.day[order.at(-1)!]!).repeated
    return repeated.has(hourOfRow(rows, row))
  }
  const kept = order.filter((row) => {
    const time = minuteOf(rows, row)
    const before = seen.get(time) ?? 0
    seen.set(time, before + 1)
    return before === 0 || (before === 1 && rows.hour[row]! >= 0 && isClockPutBack(row))
  })
  return kept.length === order.length ? order : kept
}

function picked(rows: WeatherTable, order: readonly number[]): WeatherTable {
  const table = emptyTable(
    order.length,
    MEASURED.filter((key) => rows.readings[key]),
  )
  table.length = order.length
  for (const [to, row] of order.entries()) {
    table.start[to] = rows.start[row]!
    table.day[to] = rows.day[row]!
    table.hour[to] = rows.hour[row]!
    table.minute[to] = rows.minute[row]!
    for (const key of MEASURED) if (rows.readings[key]) table.readings[key]![to] = rows.readings[key]![row]!
  }
  return table
}

const minuteOf = (rows: WeatherTable, row: number) => hourOfRow(rows, row) * 60 + rows.minute[row]!

/** Usual minutes between rows. */
function stepOf(rows: WeatherTable, order: readonly number[]): number | null {
  const counts = new Map<number, number>()
  for (let at = 1; at < order.length; at++) {
    const step = minuteOf(rows, order[at]!) - minuteOf(rows, order[at - 1]!)
    if (step > 0) counts.set(step, (counts.get(step) ?? 0) + 1)
  }
  return [...counts].sort((a, b) => b[1] - a[1])[0]?.[0] ?? null
}
