import type { Measured } from '../weather/columns.ts'
import { MIDDLE_IN_FAHRENHEIT, MIDDLE_IN_INCHES, middleOf } from '../weather/unlikely.ts'
import type { Question } from './recognised.ts'

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

/** A unit, or what to ask about it. */
type UnitResult = string | Question

/** Asks for a column's unit, or for one of `among`. */
function ask(
  level: Question['level'],
  key: Measured,
  message: string,
  { among, help }: { among?: readonly string[]; help?: string },
): Question {
  const say = (among ?? []).map((unit) => `--column-units ${key}=${unit}`)
  const which = say.length < 2 ? say.join('') : `${say.slice(0, -1).join(', ')}, or ${say.at(-1)}`
  const answers = among?.map((unit) => ({ shown: unitShown(unit, key), units: { [key]: unit } }))
  return {
    name: 'unit-unclear',
    level,
    message,
    help: help ?? `say which: ${which}`,
    ...(answers && { answers }),
  }
}

const UNIT_SHOWN: Readonly<Record<string, string>> = {
  C: '°C',
  F: '°F',
  kn: 'knots',
  Bft: 'Beaufort',
  in: 'inches',
  min: 'minutes',
  s: 'seconds',
  h: 'hours',
  share: 'a share of 1',
  'wetness share': 'a share of the time, 0 to 1',
  'wetness %': '% of the time between rows',
}

/** A unit in words. */
export const unitShown = (unit: string, key: Measured): string =>
  UNIT_SHOWN[`${key} ${unit}`] ?? UNIT_SHOWN[unit] ?? unit

/** A cool site is hardly ever this warm, °C, so a higher reading is °F. Common practice, no source. */
const ONLY_FAHRENHEIT = 48
/** Higher than any air temperature, °F; a reading in kelvin exceeds it. */
const HOTTEST = 200
/** Colder than anywhere vines grow, °F. Common practice, no source. */
const ONLY_CELSIUS = -13

/** The unit of a temperature: from its heading, unless its values contradict it; else from its values. */
export function temperatureUnit({ key, name, unit, values, units }: About): UnitResult {
  const highest = values.reduce((most, value) => Math.max(most, value), Number.NEGATIVE_INFINITY)
  if (highest > HOTTEST)
    return ask('error', key, `column \`${name}\` reaches ${highest}, which is neither °C nor °F`, {
      help: `export it in °C or °F, or leave it out: --columns "${key}=none"`,
    })
  const isF = middleOf(values) > MIDDLE_IN_FAHRENHEIT || highest > ONLY_FAHRENHEIT
  if (unit === 'C' && isF) {
    const message = `column \`${name}\` says °C, and half of it is over ${MIDDLE_IN_FAHRENHEIT} or it reaches ${highest}: this reads like °F`
    return ask('error', key, message, { among: ['F', 'C'] })
  }
  if (unit !== null || isF) return unit ?? 'F'
  if (units !== 'us' || values.some((value) => value < ONLY_CELSIUS)) return 'C'
  const message = `column \`${name}\` names no unit, and its values, up to ${highest}, could be °C or °F`
  return ask('error', key, message, { among: ['C', 'F'] })
}

/** Fewest wet rows that show inches. Own choice. */
const FEWEST_WET = 5

/** The unit of rain: from its heading; without one mm, unless the values could be inches. */
function rainUnit({ key, name, unit, values, isDaily, units }: About): UnitResult {
  if (unit !== null) return unit
  const wet = values.filter((value) => value > 0)
  const isFine = wet.some((value) => Math.abs(value * 10 - Math.round(value * 10)) > 0.01)
  const isSmall = isFine && middleOf(wet) < MIDDLE_IN_INCHES[isDaily ? 'daily' : 'hourly']
  if (units !== 'us' && !(isSmall && wet.length >= FEWEST_WET)) return 'mm'
  const message = `column \`${name}\` names no unit, and its values could be mm or inches`
  return ask('error', key, message, { among: ['mm', 'in'] })
}

/** Fewest rows, none over 1, that show a share of 1 rather than %. Own choice. */
const FEWEST_SHARES = 10

/** Humidity is a percentage, or, where it never comes over 1, a share of 1. */
function humidityUnit({ key, name, unit, values }: About): UnitResult {
  const isLow = values.every((value) => value <= 1)
  const isShare = isLow && values.length >= FEWEST_SHARES && values.some((value) => value > 0)
  if (isShare || unit === 'share') return 'share'
  if (!isLow) return '%'
  const message = `column \`${name}\` holds nothing over 1, so it is left out: it may be % or a share of 1`
  return ask('warning', key, message, { among: ['%', 'share'] })
}

/** Wind values don't reveal their unit: without one, wind is left out until it is given. */
const windUnit = ({ key, name, unit }: About): UnitResult =>
  unit ?? leftOut(key, name, ['m/s', 'km/h', 'mph', 'kn', 'Bft'])

/** Share of 0 and full-scale readings from which a wetness sensor counts as on/off. Own choice. */
const MOST_CLEAR = 0.9

/**
 * Leaf wetness as wet time. A percentage of 0 or 100, or a figure of 0 or 1, shows whether it was
 * wet; others may be a degree of wetness on the sensor's own scale, and are left out until the unit is given.
 */
function wetnessUnit({ key, name, unit, values }: About): UnitResult {
  if (unit !== null && unit !== '%') return unit
  const whole = unit === '%' ? 100 : 1
  const clear = values.filter((value) => value === 0 || value === whole).length
  const isTime = /time|dauer|duration|zeit\b|duree|tijd/i.test(name)
  const isClear = values.includes(whole) && clear >= values.length * (unit === '%' ? MOST_CLEAR : 1)
  if (isClear || (unit === '%' && isTime)) return unit ?? 'share'
  if (unit === null) return leftOut(key, name, ['min', 's', 'h', '%', 'share'])
  const message = `column \`${name}\` is wetness in %, which may be how wet the leaf was, so it is left out`
  const help = 'if it is the share of the time that leaves were wet, add --column-units wetness=%'
  return ask('warning', key, message, { among: ['%'], help })
}

function leftOut(key: Measured, name: string, among: readonly string[]): Question {
  const help = `name its unit: --column-units ${key}=${among[0]} (or ${among.slice(1).join(', ')})`
  return ask('warning', key, `column \`${name}\` is ${key} without a unit, so it is left out`, {
    among,
    help,
  })
}

/** How the unit of each reading is judged. */
export const UNIT_OF: Readonly<Record<Measured, (about: About) => UnitResult>> = {
  temperature: temperatureUnit,
  min: temperatureUnit,
  max: temperatureUnit,
  mean: temperatureUnit,
  humidity: humidityUnit,
  rain: rainUnit,
  wetness: wetnessUnit,
  wind: windUnit,
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
