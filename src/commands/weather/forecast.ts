import { Weather } from '../../facts/weather/hours.ts'
import { hourOfRow } from '../../ledger/weather/table.ts'
import { readWeatherFile } from '../../ledger/weather/weather.ts'
import type { Call } from '../plumbing/call.ts'
import { UsageError } from '../plumbing/errors.ts'

/**
 * The file behind --forecast: daily means, highest temperatures and rain by day number, in °C and mm, and its hours
 * where it is hourly.
 * @throws UsageError where nothing can be taken from it
 */
export function readForecast(call: Call) {
  const path = call.text('forecast')
  if (path === undefined) return undefined
  const file = readWeatherFile(path, { cwd: call.env.cwd })
  const weather = new Weather(file)
  const byDay = (key: 'mean' | 'max' | 'rain') =>
    new Map(weather.days.flatMap(({ day, [key]: value }) => (value === null ? [] : [[day, value] as const])))
  const means = byDay('mean')
  const fault = file.findings.find(({ level }) => level === 'error')
  if (fault) throw new UsageError(`--forecast ${path}:${fault.line}: ${fault.message}`, fault.help)
  const { table } = file.hours
  const apart = table.length > 1 ? hourOfRow(table, 1) - hourOfRow(table, 0) : 1
  const columns = 'CSV file with the columns date, min_c, max_c and, where known, rain_mm'
  if (means.size === 0 && apart > 1)
    throw new UsageError(
      `the rows of --forecast ${path} are ${apart} hours apart: that is too few to tell what its days are`,
      `save it by hours, or by days: a ${columns}`,
    )
  if (means.size === 0) throw new UsageError(`--forecast ${path} has no temperatures`, `a daily ${columns}`)
  const hours = file.form === 'hourly' ? weather.hours : null
  return { means, highest: byDay('max'), rain: byDay('rain'), hours }
}
