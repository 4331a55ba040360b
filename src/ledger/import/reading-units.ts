import type { Measured } from '../weather/columns.ts'
import type { Answer } from './recognised.ts'

interface About {
  key: Measured
  name: string
  /** Unit in its heading; null where there is none. */
  unit: string | null
  values: readonly number[]
  isDaily: boolean
  /** The vineyard's own. */
  units: 'metric' | 'us' | 'imperial' | undefined
}

type UnitResult =
  | { unit: string }
  | { question: { level: 'error' | 'warning'; message: string; help: string; answers?: readonly Answer[] } }

/** Asks for a column's unit; `among` lists the possible ones. */
function ask(
  level: 'error' | 'warning',
  { key, message, help, among }: { key: Measured; message: string; help?: string; among?: readonly string[] },
): UnitResult {
  const say = (among ?? []).map((unit) => `--column-units ${key}=${unit}`)
  const answers = among?.map((unit): Answer => ({ shown: unitShown(unit, key), units: { [key]: unit } }))
  return {
    question: { level, message, help: help ?? `say which: ${orList(say)}`, ...(answers && { answers }) },
  }
}

const orList = (parts: readonly string[]) =>
  parts.length < 2 ? parts.join('') : `${parts.slice(0, -1).join(', ')}, or ${parts.at(-1)}`

const UNIT_SHOWN: Readonly<Record<string, string>> = {
  C: '°C',
  F: '°F',
  kn: 'knots',
  Bft: 'Beaufort',
  in: 'inches',
  min: 'minutes',
  s: 'seconds',
  h: 'hours',
}

/** A unit in words. */
export const unitShown = (unit: string, key: Measured): string =>
  unit === 'share'
    ? key === 'wetness'
      ? 'a share of the time, 0 to 1'
      : 'a share of 1'
    : unit === '%' && key === 'wetness'
      ? '% of the time between rows'
      : (UNIT_SHOWN[unit] ?? unit)

/** A cool site is hardly ever this warm, °C, so a higher reading is °F. Common practice, no source. */
const ONLY_FAHRENHEIT = 48
/** Median temperature from which readings are °F. Common practice, no source. */
const MIDDLE_FAHRENHEIT = 36
/** Higher than any air temperature, °F; a reading in kelvin exceeds it. */
const HOTTEST = 200
/** Colder than anywhere vines grow, °F. Common practice, no source. */
const ONLY_CELSIUS = -13

/** The unit of a temperature: from its heading, unless its values contradict it; else from its values. */
export function temperatureUnit({ key, name, unit, values, units }: About): UnitResult {
  const middle = middleOf(values)
  const highest = values.reduce((most, value) => Math.max(most, value), Number.NEGATIVE_INFINITY)
  if (highest > HOTTEST)
    return ask('error', {
      key,
      message: `column \`${name}\` reaches ${highest}, which is neither °C nor °F`,
      help: `export it in °C or °F, or leave it out: --columns "${key}=none"`,
    })
  const isF = middle > MIDDLE_FAHRENHEIT || highest > ONLY_FAHRENHEIT
  if (unit === 'C' && isF)
    return ask('error', {
      key,
      message: `column \`${name}\` says °C, and half of it is over ${MIDDLE_FAHRENHEIT} or it reaches ${highest}: this reads like °F`,
      among: ['F', 'C'],
    })
  if (unit !== null) return { unit }
  if (isF) return { unit: 'F' }
  const isC = units !== 'us' || values.some((value) => value < ONLY_CELSIUS)
  if (isC) return { unit: 'C' }
  return ask('error', {
    key,
    message: `column \`${name}\` names no unit, and its values, up to ${highest}, could be °C or °F`,
    among: ['C', 'F'],
  })
}

/** Median of the wet rows, mm, below which rain looks like inches, and how many wet rows that takes. Own choice. */
const MIDDLE_IN_INCHES = { hourly: 0.1, daily: 0.3 } as const
const FEWEST_WET = 5

/** The unit of rain: from its heading; without one mm, unless the values could be inches. */
export function rainUnit({ name, unit, values, isDaily, units }: About): UnitResult {
  if (unit !== null) return { unit }
  const wet = values.filter((value) => value > 0)
  const isFine = wet.some((value) => Math.abs(value * 10 - Math.round(value * 10)) > 0.01)
  const isSmall =
    wet.length >= FEWEST_WET && isFine && middleOf(wet) < MIDDLE_IN_INCHES[isDaily ? 'daily' : 'hourly']
  if (!isSmall && units !== 'us') return { unit: 'mm' }
  return ask('error', {
    key: 'rain',
    message: `column \`${name}\` names no unit, and its values could be mm or inches`,
    among: ['mm', 'in'],
  })
}

/** Fewest rows, none over 1, that show a share of 1 rather than %. Own choice. */
const FEWEST_SHARES = 10

/** Humidity is a percentage, or, where it never comes over 1, a share of 1. */
export function humidityUnit({ name, unit, values }: About): UnitResult {
  const isShare =
    values.length >= FEWEST_SHARES && values.every((value) => value <= 1) && values.some((value) => value > 0)
  if (isShare || unit === 'share') return { unit: 'share' }
  if (values.every((value) => value <= 1))
    return ask('warning', {
      key: 'humidity',
      message: `column \`${name}\` holds nothing over 1, so it is left out: it may be % or a share of 1`,
      among: ['%', 'share'],
    })
  return { unit: '%' }
}

/** Wind values don't reveal their unit: without one, wind is left out until it is given. */
export const windUnit = ({ name, unit }: About): UnitResult =>
  unit === null ? leftOut('wind', name, ['m/s', 'km/h', 'mph', 'kn', 'Bft']) : { unit }

/** Share of 0 and full-scale readings from which a wetness sensor counts as on/off. Own choice. */
const MOST_CLEAR = 0.9

/**
 * Leaf wetness as wet time. A percentage of 0 or 100, or a figure of 0 or 1, shows whether it was
 * wet; others may be a degree of wetness on the sensor's own scale, and are left out until the unit is given.
 */
export function wetnessUnit({ name, unit, values }: About): UnitResult {
  if (unit !== null && unit !== '%') return { unit }
  const whole = unit === '%' ? 100 : 1
  const clear = values.filter((value) => value === 0 || value === whole).length
  const isTime = /time|dauer|duration|zeit\b|duree|tijd/i.test(name)
  const isClear = values.includes(whole) && clear >= values.length * (unit === '%' ? MOST_CLEAR : 1)
  if (isClear || (unit === '%' && isTime)) return { unit: unit ?? 'share' }
  return leftOut('wetness', name, unit === '%' ? ['%'] : ['min', 's', 'h', '%', 'share'], unit)
}

function leftOut(
  key: 'wind' | 'wetness',
  name: string,
  among: readonly string[],
  unit: string | null = null,
) {
  const how = unit === null ? 'without a unit' : `in ${unit}, which may be how wet the leaf was`
  return ask('warning', {
    key,
    message: `column \`${name}\` is ${key} ${how}, so it is left out`,
    help:
      unit === null
        ? `name its unit: --column-units ${key}=${among[0]}${among.length > 1 ? ` (or ${among.slice(1).join(', ')})` : ''}`
        : `if it is the share of the time that leaves were wet, add --column-units ${key}=${unit}`,
    among,
  })
}

/** Fewest wet rows needed to tell a running total from rain per row. Own choice. */
const FEWEST_COUNTED = 6

/**
 * Whether rain is a running total: it falls only between days, or once to zero, and often stays the same
 * above zero, which rain per row hardly does.
 */
export function isCounter(rows: readonly { day: string; value: number | null }[]): boolean {
  const known = rows.flatMap(({ day, value }) => (value === null ? [] : [{ day, value }]))
  const isBackwards = known.length > 1 && known[0]!.value > known.at(-1)!.value
  const rises = countedSo(known)
  return rises || (isBackwards && countedSo(known.toReversed()))
}

function countedSo(known: readonly { day: string; value: number }[]): boolean {
  const wet = known.filter(({ value }) => value > 0).length
  if (wet < FEWEST_COUNTED) return false
  let rises = 0
  let starts = 0
  let still = 0
  let run = 0
  let falls = 0
  for (let at = 1; at < known.length; at++) {
    const [before, now] = [known[at - 1]!, known[at]!]
    const isReset = now.day !== before.day || (now.value === 0 && run >= FEWEST_COUNTED)
    if (now.value < before.value && !isReset) falls++
    if (now.value > before.value && before.value > 0) rises++
    else if (now.value > before.value) starts++
    run = now.value === before.value && now.value > 0 ? run + 1 : 0
    if (run > 0) still++
  }
  // A drizzle of one tip a row stays the same too, but a total keeps rising.
  return falls === 0 && still >= wet / 2 && rises > 0 && rises >= starts / 2
}

function middleOf(values: readonly number[]): number {
  const sorted = values.toSorted((a, b) => a - b)
  return sorted[Math.floor(sorted.length / 2)] ?? Number.NaN
}
