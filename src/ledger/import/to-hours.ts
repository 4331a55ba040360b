import { clockChanges } from '../../records/zone.ts'
import { MEASURED, possible } from '../weather/columns.ts'
import { commonest } from '../weather/commonest.ts'
import { hoursOf } from '../weather/hours.ts'
import { emptyTable, hourOfRow, timeOfRow, type WeatherTable } from '../weather/table.ts'

/** Rows of an export combined into hours. */
export interface ToHours {
  rows: WeatherTable
  /** Usual minutes between rows; null for days, and for a single row. */
  step: number | null
  /** Incomplete hours at the ends of the file, left out. */
  cut: string[]
  /** Hours without a single reading, left out. */
  empty: number
  /** Hours with so many missing readings that at least one sum or mean is unknown. */
  partly: number
  /** Rows left out because an earlier row has the same time. */
  twice: number
}

/**
 * Combines rows of less than an hour into hours. Hours cut off at the file's ends are left for the next export.
 * Changes the rows given: a clock time that never changes is taken out, a running total becomes rain per row.
 */
export function broughtToHours(
  rows: WeatherTable,
  { isDaily, isCounted, zone }: { isDaily: boolean; isCounted: boolean; zone: string | undefined },
): ToHours {
  if (isDaily) {
    rows.hour.fill(-1)
    rows.minute.fill(0)
  }
  const all = inTimeOrder(rows)
  const steps = all.slice(1).map((row, at) => minuteOf(rows, row) - minuteOf(rows, all[at]!))
  const step = commonest(steps.filter((minutes) => minutes > 0))[0]?.[0] ?? null
  if (isCounted) risesOf(rows, all, step)
  const order = eachOnce(rows, all, zone)
  const twice = all.length - order.length
  const areDays = rows.length > 0 && rows.hour[all[0]!]! < 0
  if (areDays || step === null || step >= 60) {
    const isAsRead = twice === 0 && order.every((row, at) => row === at)
    const sorted = isAsRead ? rows : picked(rows, order)
    return { rows: sorted, step: areDays ? null : step, cut: [], empty: 0, partly: 0, twice }
  }
  const hourly = hoursOf(rows, order, { zone, complain: () => {} }).table
  const counts = commonest(order.map((row) => hourOfRow(rows, row)))
  const countOf = new Map(counts)
  const whole = Math.min(counts[0]![1], 60 / step)
  const measured = MEASURED.filter((key) => hourly.readings[key])
  const places = Array.from({ length: hourly.length }, (_, at) => at)
  const ends = new Set([0, hourly.length - 1].filter((at) => countOf.get(hourOfRow(hourly, at))! < whole))
  const known = (at: number) => measured.filter((key) => !Number.isNaN(hourly.readings[key]![at]!)).length
  const inside = places.filter((at) => !ends.has(at))
  const kept = inside.filter((at) => known(at) > 0)
  const partly = kept.filter((at) => known(at) < measured.length).length
  const cut = [...ends].map((at) => timeOfRow(hourly, at))
  return { rows: picked(hourly, kept), step, cut, empty: inside.length - kept.length, partly, twice }
}

/** Row indexes in time order; an export with the newest row first is reversed. */
function inTimeOrder(rows: WeatherTable): number[] {
  const order = Array.from({ length: rows.length }, (_, row) => row)
  const isBefore = (a: number, b: number) =>
    hourOfRow(rows, a) - hourOfRow(rows, b) || rows.minute[a]! - rows.minute[b]!
  if (order.length > 1 && isBefore(order[0]!, order.at(-1)!) > 0) order.reverse()
  const isOrdered = order.every(
    (row, at) => at === 0 || hourOfRow(rows, row) >= hourOfRow(rows, order[at - 1]!),
  )
  return isOrdered ? order : order.sort(isBefore)
}

/** Turns a running total of rain into rain per row; the first row, and one after a gap, are unknown. */
function risesOf(rows: WeatherTable, order: readonly number[], step: number | null): void {
  const { rain } = rows.readings
  if (!rain) return
  const counted = rain.slice()
  const most = possible('rain', { hourly: true }).high
  for (const [at, row] of order.entries()) {
    const before = at === 0 ? undefined : order[at - 1]!
    const isNext = before !== undefined && minuteOf(rows, row) - minuteOf(rows, before) === step
    const [now, was] = [counted[row]!, isNext ? counted[before]! : Number.NaN]
    // Where the total drops, it was reset: what it shows has fallen since.
    const fell = Number.isNaN(was) ? Number.NaN : now >= was ? now - was : now
    rain[row] = fell <= most ? fell : Number.NaN
  }
}

/** The first row of each time, and also the second where clocks go back and repeat the hour. */
function eachOnce(rows: WeatherTable, order: readonly number[], zone: string | undefined): readonly number[] {
  const seen = new Map<number, number>()
  let repeated: ReadonlySet<number> | null = zone === undefined ? new Set() : null
  const isClockPutBack = (row: number) => {
    repeated ??= clockChanges(zone!, rows.day[order[0]!]!, rows.day[order.at(-1)!]!).repeated
    return repeated.has(hourOfRow(rows, row))
  }
  return order.filter((row) => {
    const time = minuteOf(rows, row)
    const before = seen.get(time) ?? 0
    seen.set(time, before + 1)
    return before === 0 || (before === 1 && rows.hour[row]! >= 0 && isClockPutBack(row))
  })
}

function picked(rows: WeatherTable, order: readonly number[]): WeatherTable {
  const measured = MEASURED.filter((key) => rows.readings[key])
  const table = emptyTable(order.length, measured)
  table.length = order.length
  for (const [to, row] of order.entries()) {
    for (const key of ['start', 'day', 'hour', 'minute'] as const) table[key][to] = rows[key][row]!
    for (const key of measured) table.readings[key]![to] = rows.readings[key]![row]!
  }
  return table
}

const minuteOf = (rows: WeatherTable, row: number) => hourOfRow(rows, row) * 60 + rows.minute[row]!
