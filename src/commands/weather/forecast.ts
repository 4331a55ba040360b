import type { EveryHour } from '../../agronomy/weather/weather-hours.ts'
import type { Call } from '../plumbing/call.ts'
import { UsageError } from '../plumbing/errors.ts'

/** A forecast: daily means, highest temperatures and rain by day number, and its hours where the file is hourly. */
interface Forecast {
  means: Map<number, number>
  /** Highest °C of each day. */
  highest: Map<number, number>
  rain: Map<number, number>
  hours: EveryHour | null
}

/** Reads the daily file behind --forecast. @throws UsageError where nothing can be taken from it. */
export async function readForecast(call: Call): Promise<Forecast | undefined> {
  const path = call.text('forecast')
  if (path === undefined) return undefined
  const { readWeatherFile } = await import('../../ledger/weather/weather.ts')
  const { Weather } = await import('../../facts/weather/hours.ts')
  const { hourOfRow } = await import('../../ledger/weather/table.ts')
  const file = readWeatherFile(path, { cwd: call.env.cwd })
  const weather = new Weather(file)
  const { days } = weather
  const means = new Map(days.flatMap(({ day, mean }) => (mean === null ? [] : [[day, mean] as const])))
  const highest = new Map(days.flatMap(({ day, max }) => (max === null ? [] : [[day, max] as const])))
  const rain = new Map(days.flatMap(({ day, rain }) => (rain === null ? [] : [[day, rain] as const])))
  const fault = file.findings.find(({ level }) => level === 'error')
  if (fault) throw new UsageError(`--forecast ${path}:${fault.line}: ${fault.message}`, fault.help)
  const { table } = file.hours
  const apart = table.length > 1 ? hourOfRow(table, 1) - hourOfRow(table, 0) : 1
  if (means.size === 0 && apart > 1)
    throw new UsageError(
      `the rows of --forecast ${path} are ${apart} hours apart: that is too few to tell what its days are`,
      'save it by hours, or by days: a CSV file with the columns date, min_c, max_c and, where known, rain_mm',
    )
  if (means.size === 0)
    throw new UsageError(
      `--forecast ${path} has no temperatures`,
      'a daily CSV file with the columns date, min_c, max_c and, where known, rain_mm',
    )
  return { means, highest, rain, hours: file.form === 'hourly' ? weather.hours : null }
}
