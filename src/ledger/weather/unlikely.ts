import { isoDate } from '../../records/date.ts'
import type { Complain } from './rows.ts'
import { hourOfRow, timeSpan, type WeatherTable } from './table.ts'

/** Median temperature from which a file looks like °F under a °C heading. Common practice, no source. */
export const MIDDLE_IN_FAHRENHEIT = 36
/** Fewest readings for a judgement about a whole file: two days of hours, or a fortnight of days. */
const FEWEST = { hourly: 48, daily: 14 } as const
/** Median of the wet hours or days, mm, below which rain looks like inches, and how many of them that takes. Own choice. */
export const MIDDLE_IN_INCHES = { hourly: 0.1, daily: 0.3 } as const
const FEWEST_WET = 20
/** Rain in one row that figures in inches hardly exceed. */
const MOST_IN_INCHES = 4
/** No whole file stays below this humidity, %. Own choice. */
const MOST_AS_SHARE = 1.5
/** Median humidity, %, below which it looks swapped with temperature. Own choice. */
const MOST_SWAPPED = 30
/** Median wind, m/s, that hardly any vineyard has over ten days of hours or a month. Common practice, no source. */
const MIDDLE_IN_KMH = 6
const FEWEST_WINDY = { hourly: 240, daily: 30 } as const

/**
 * Reports readings of a whole file that look like another unit (°F taken for °C, inches for mm, shares for %, hours for
 * minutes, km/h for m/s), or two swapped columns.
 */
export function reportUnlikely(
  rows: WeatherTable,
  { order, form, complain }: { order: readonly number[]; form: 'hourly' | 'daily'; complain: Complain },
): void {
  const first = order[0]
  if (first === undefined) return
  const known = (values: Float64Array | undefined) => {
    const found: number[] = []
    order.forEach((row) => {
      const value = values?.[row] ?? Number.NaN
      if (!Number.isNaN(value)) found.push(value)
    })
    return found
  }
  const { readings } = rows
  const warmth = known(readings.temperature ?? readings.max)
  const damp = known(readings.humidity)
  const wet = known(readings.rain).filter((value) => value > 0)
  const leafWet = known(readings.wetness).filter((minutes) => minutes > 0)
  const blown = known(readings.wind)
  const isWarm = warmth.length >= FEWEST[form] && middleOf(warmth) > MIDDLE_IN_FAHRENHEIT
  const isSwapped = isWarm && damp.length >= FEWEST[form] && middleOf(damp) < MOST_SWAPPED
  const tell = (isSo: boolean, message: string, unit: string | null) => {
    const help = unit
      ? `write \`weather: { units: { ${unit} } }\` in vineyard.yaml, or correct the file`
      : 'swap their headings in the file, or their names under `weather: columns:` in vineyard.yaml'
    if (isSo) complain(timeSpan(rows, first), { name: 'unlikely-weather', message, help })
  }
  tell(
    isSwapped,
    `half of the temperatures are over ${MIDDLE_IN_FAHRENHEIT} C and half of the humidity is under ${MOST_SWAPPED} %: the two columns look swapped`,
    null,
  )
  tell(
    isWarm && !isSwapped,
    `half of the temperatures are over ${MIDDLE_IN_FAHRENHEIT} C from ${isoDate(rows.day[first]!)} on: this reads like °F`,
    'temperature: F',
  )
  tell(
    wet.length >= FEWEST_WET &&
      middleOf(wet) < MIDDLE_IN_INCHES[form] &&
      wet.every((rain) => rain < MOST_IN_INCHES),
    `half of the wet ${form === 'daily' ? 'days' : 'hours'} have under ${MIDDLE_IN_INCHES[form]} mm of rain: this reads like inches`,
    'rain: in',
  )
  tell(
    damp.length >= FEWEST[form] && damp.every((share) => share <= MOST_AS_SHARE),
    `no humidity is over ${MOST_AS_SHARE} %: this reads like shares of 1`,
    'humidity: share',
  )
  tell(
    blown.length >= FEWEST_WINDY[form] && middleOf(blown) > MIDDLE_IN_KMH,
    `half of the wind is over ${MIDDLE_IN_KMH} m/s: this reads like km/h`,
    'wind: km/h',
  )
  tell(
    form === 'hourly' && leafWet.length >= FEWEST_WET && leafWet.every((minutes) => minutes <= 1),
    'leaves are never wet for more than a minute of an hour: this reads like hours',
    'wetness: h',
  )
}

/** Reports a station with an hour that the clock skips in spring: it does not follow summer time. */
export function reportSkippedHour(
  rows: WeatherTable,
  {
    order,
    skipped,
    complain,
  }: { order: readonly number[]; skipped: ReadonlySet<number>; complain: Complain },
): void {
  const at = order.find((row) => skipped.has(hourOfRow(rows, row)))
  if (at === undefined) return
  complain(timeSpan(rows, at), {
    name: 'clock-off',
    message: `this hour does not exist: clocks go forward in the night to ${isoDate(rows.day[at]!)}, so that from here on the station is an hour behind`,
    help: 'set the station to local time with summer time, or shift the hours of summer by one',
  })
}

/**
 * Hours for which no air temperature stays exactly the same. Our own choice; a persistence check is common practice.
 */
const STUCK_HOURS = 48

/** Reports a temperature that doesn't change for two days: a stuck sensor, or rows that were filled in. */
export function reportStuckSensor(rows: WeatherTable, order: readonly number[], complain: Complain): void {
  const values = rows.readings.temperature
  if (!values) return
  const tellLong = (from: number, to: number) => {
    const hours = hourOfRow(rows, to) - hourOfRow(rows, from)
    if (hours < STUCK_HOURS) return
    complain(timeSpan(rows, from), {
      name: 'stuck-sensor',
      level: 'hint',
      message: `the temperature stays ${values[from]} C from here for ${hours} hours, up to ${isoDate(rows.day[to]!)}`,
      help: 'look after the sensor; empty the cells that it did not measure, so that they count as unknown',
    })
  }
  let first = 0
  for (let at = 1; at <= order.length; at++) {
    const row = order[at]
    const before = order[at - 1]!
    const isNext = row !== undefined && hourOfRow(rows, row) - hourOfRow(rows, before) <= 1
    if (isNext && values[row] === values[before]) continue
    tellLong(order[first]!, before)
    first = at
  }
}

/** The median; NaN of nothing. */
export const middleOf = (values: readonly number[]): number =>
  Float64Array.from(values).sort()[Math.floor(values.length / 2)] ?? Number.NaN
