import type { ExportTable } from '../../ledger/import/weather-table.ts'
import { MEASURED, type Measured, READINGS } from '../../ledger/weather/columns.ts'
import { hourOfRow, hourText, readingAt, timeOfRow, type WeatherTable } from '../../ledger/weather/table.ts'
import { isoDate } from '../../records/date.ts'

interface ShownRow {
  time: string
  /** In the program's own units; null where unknown. */
  readings: Partial<Record<Measured, number | null>>
}

/** What was read from an export, for somebody to look over before it is written. */
export type WeatherRead = ReturnType<typeof weatherRead>

const SHOWN = 2

/** Sums up what was read from an export: its first and last rows, span, gaps and extremes. */
export function weatherRead(source: ExportTable) {
  const { hours, recognised, file } = source
  const { rows, step, empty, partly, twice } = hours
  const isDaily = rows.length > 0 && rows.hour[0]! < 0
  const places = Array.from({ length: rows.length }, (_, at) => at)
  const measured = MEASURED.filter((key) => rows.readings[key])
  const shown = (at: number): ShownRow => ({
    time: timeOfRow(rows, at),
    readings: Object.fromEntries(measured.map((key) => [key, readingAt(rows, key, at)])),
  })
  return {
    file,
    /** Rows of the file, and minutes from one to the next; null where they are of days. */
    rows: source.rows.length,
    step,
    /** Hours or days that they come to. */
    entries: rows.length,
    columns: recognised.columns,
    /** How far its clock is ahead of UTC, `Z` or `+02:00`, where it isn't the vineyard's own; its times don't say so themselves. */
    offset: recognised.offset,
    from: rows.length > 0 ? shown(0).time : null,
    to: rows.length > 0 ? shown(rows.length - 1).time : null,
    first: places.slice(0, SHOWN).map(shown),
    last: places.slice(Math.max(SHOWN, rows.length - SHOWN)).map(shown),
    extremes: measured.flatMap((what) => extremesOf(rows, what) ?? []),
    /** Hours or days that are missing between the first and the last. */
    gaps: gapsOf(rows, isDaily),
    /** Hours at the ends that the file holds in part, hours without a reading, hours with some unknown. */
    cut: hours.cut,
    empty,
    partly,
    /** Rows left out since another of the same time stands before them. */
    twice,
  }
}

function extremesOf(rows: WeatherTable, what: Measured) {
  const known = Array.from(rows.readings[what]!.subarray(0, rows.length)).filter(
    (value) => !Number.isNaN(value),
  )
  if (known.length === 0) return null
  const isSum = what === 'rain' || what === 'wetness'
  return {
    what,
    unit: READINGS[what].unit,
    low: known.reduce((a, b) => Math.min(a, b)),
    high: known.reduce((a, b) => Math.max(a, b)),
    sum: isSum ? known.reduce((a, b) => a + b) : null,
    known: known.length,
  }
}

function gapsOf(rows: WeatherTable, isDaily: boolean) {
  const gaps: { from: string; to: string; missing: number }[] = []
  const number = (at: number) => (isDaily ? rows.day[at]! : hourOfRow(rows, at))
  const text = isDaily ? isoDate : (hour: number) => hourText(hour)
  for (let at = 1; at < rows.length; at++) {
    const [before, next] = [number(at - 1), number(at)]
    if (next > before + 1)
      gaps.push({ from: text(before + 1), to: text(next - 1), missing: next - before - 1 })
  }
  return gaps
}
