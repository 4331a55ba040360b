import type { Measured } from '../weather/columns.ts'

interface About {
  key: Measured
  name: string
  /** As its heading says; null where it says none. */
  unit: string | null
  values: readonly number[]
  isDaily: boolean
  /** The vineyard's own. */
  units: 'metric' | 'us' | 'imperial' | undefined
}

type UnitResult =
  | { unit: string }
  | { question: { level: 'error' | 'warning'; message: string; help: string } }

const ask = (level: 'error' | 'warning', message: string, help: string): UnitResult => ({
  question: { level, message, help },
})

/** Hardly a cool site is ever this warm, °C, so that a reading above it is °F. Common practice, no source. */
const ONLY_FAHRENHEIT = 48
/** Middle temperature from which readings are °F. Common practice, no source. */
const MIDDLE_FAHRENHEIT = 36
/** No thermometer in air reads this, °F; a reading in kelvin does. */
const HOTTEST = 200
/** Nowhere that vines grow is it this cold, °F. Common practice, no source. */
const ONLY_CELSIUS = -13

/** The unit of a temperature: by its heading, unless its values speak against it; else by its values. */
export function temperatureUnit({ key, name, unit, values, units }: About): UnitResult {
  const middle = middleOf(values)
  const highest = values.reduce((most, value) => Math.max(most, value), Number.NEGATIVE_INFINITY)
  if (highest > HOTTEST)
    return ask(
      'error',
      `column \`${name}\` reaches ${highest}, which is neither °C nor °F`,
      `export it in °C or °F, or leave it out: --columns "${key}=none"`,
    )
  const isF = middle > MIDDLE_FAHRENHEIT || highest > ONLY_FAHRENHEIT
  if (unit === 'C' && isF)
    return ask(
      'error',
      `column \`${name}\` says °C, and half of it is over ${MIDDLE_FAHRENHEIT} or it reaches ${highest}: this reads like °F`,
      `say which: --column-units ${key}=F, or --column-units ${key}=C`,
    )
  if (unit !== null) return { unit }
  if (isF) return { unit: 'F' }
  const isC = units !== 'us' || values.some((value) => value < ONLY_CELSIUS)
  if (isC) return { unit: 'C' }
  return ask(
    'error',
    `column \`${name}\` names no unit, and its values, up to ${highest}, could be °C or °F`,
    `say which: --column-units ${key}=C, or --column-units ${key}=F`,
  )
}

/** Middle of the wet rows under which rain reads like inches, mm, and how many of them are asked for. Own choice. */
const MIDDLE_IN_INCHES = { hourly: 0.1, daily: 0.3 } as const
const FEWEST_WET = 5

/** The unit of rain: by its heading; without one mm, unless the values could be inches. */
export function rainUnit({ name, unit, values, isDaily, units }: About): UnitResult {
  if (unit !== null) return { unit }
  const wet = values.filter((value) => value > 0)
  const isFine = wet.some((value) => Math.abs(value * 10 - Math.round(value * 10)) > 0.01)
  const isSmall =
    wet.length >= FEWEST_WET && isFine && middleOf(wet) < MIDDLE_IN_INCHES[isDaily ? 'daily' : 'hourly']
  if (!isSmall && units !== 'us') return { unit: 'mm' }
  return ask(
    'error',
    `column \`${name}\` names no unit, and its values could be mm or inches`,
    'say which: --column-units rain=mm, or --column-units rain=in',
  )
}

/** Rows of nothing over 1 that tell a share of 1 from %. Own choice. */
const FEWEST_SHARES = 10

/** Humidity is a percentage, or, where it never comes over 1, a share of 1. */
export function humidityUnit({ name, unit, values }: About): UnitResult {
  const isShare =
    values.length >= FEWEST_SHARES && values.every((value) => value <= 1) && values.some((value) => value > 0)
  if (isShare || unit === 'share') return { unit: 'share' }
  if (values.every((value) => value <= 1))
    return ask(
      'warning',
      `column \`${name}\` holds nothing over 1, and is left out: it may be % or a share of 1`,
      'say which it has: --column-units humidity=%, or --column-units humidity=share',
    )
  return { unit: '%' }
}

const READ: Partial<Record<Measured, readonly string[]>> = {
  wind: ['m/s', 'km/h', 'mph', 'kn'],
  wetness: ['min', 's', 'h'],
}

/** Wind and leaf wetness come in units that their values don't tell apart: without one they are left out. */
export function windUnit({ key, name, unit }: About): UnitResult {
  const known = READ[key] ?? []
  if (unit !== null && known.includes(unit)) return { unit }
  return ask(
    'warning',
    `column \`${name}\` is ${key} ${unit === null ? 'without a unit' : `in ${unit}`}, and is left out`,
    unit === null
      ? `say which it has: ${known.map((one) => `--column-units ${key}=${one}`).join(', ')}`
      : `rowbook reads ${known.join(', ')}: export it so, and bring the file in again`,
  )
}

/** Rows with rain that tell a running total from rain of each row. Own choice. */
const FEWEST_COUNTED = 6

/**
 * Whether rain counts up: it falls only from one day to the next, or to nothing for good, and often stands still
 * above zero, as rain of each row hardly does.
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
  // A drizzle of one tip a row stands still too, but a total goes on rising.
  return falls === 0 && still >= wet / 2 && rises > 0 && rises >= starts / 2
}

function middleOf(values: readonly number[]): number {
  const sorted = values.toSorted((a, b) => a - b)
  return sorted[Math.floor(sorted.length / 2)] ?? Number.NaN
}
