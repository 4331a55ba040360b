import type { Ledger } from '../ledger/read/ledger.ts'
import type { Quantity } from '../records/quantity.ts'
import { convert } from '../records/units.ts'

export type Units = Ledger['vineyard']['units']

const NUMBER = '[+-]?(?:\\d{1,3}(?: \\d{3})+|\\d+)(?:\\.\\d+)?'
const SPAN = `(?<![\\d.])(${NUMBER})(?:(-| to )(${NUMBER}))?`

/** The units for sentences about a ledger: those asked for, else the site's. */
export const unitsOf = ({ saidIn, vineyard }: Pick<Ledger, 'saidIn' | 'vineyard'>): Units =>
  saidIn ?? vineyard.units

/** What a metric unit becomes in a US or imperial ledger, and how many decimals are shown. */
interface Own {
  unit: string
  decimals: number
  /** The conversion, where a factor is not enough (temperatures). */
  in?: (value: number) => number
}

const LEAF_WALL = ' leaf wall'
const FAHRENHEIT = { unit: '°F', in: (value: number) => value * 1.8 + 32, decimals: 0 }

/** Metric units found in sentences; `gal` stands for the country's own gallon. */
const CUSTOMARY: Record<string, Own> = {
  '°C-days': { unit: '°F-days', in: (value) => value * 1.8, decimals: 0 },
  // A difference between two temperatures: scaled by 1.8, without the 32 of the scale's zero point.
  '°C apart': { unit: '°F apart', in: (value) => value * 1.8, decimals: 1 },
  '°C': FAHRENHEIT,
  C: FAHRENHEIT,
  mm: { unit: 'in', decimals: 2 },
  cm: { unit: 'in', decimals: 0 },
  m: { unit: 'ft', decimals: 1 },
  'kg/ha': { unit: 'lb/acre', decimals: 2 },
  'g/ha': { unit: 'oz/acre', decimals: 2 },
  'kg/h': { unit: 'lb/h', decimals: 0 },
  kg: { unit: 'lb', decimals: 1 },
  g: { unit: 'oz', decimals: 2 },
  't/ha': { unit: 'lb/acre', decimals: 0 },
  ha: { unit: 'acre', decimals: 2 },
  m2: { unit: 'ft2', decimals: 0 },
  'm/s': { unit: 'mph', decimals: 0 },
  'km/h': { unit: 'mph', decimals: 1 },
  bar: { unit: 'psi', decimals: 0 },
  'L/ha': { unit: 'gal/acre', decimals: 2 },
  'L/min': { unit: 'gal/min', decimals: 2 },
  'L/t': { unit: 'gal/US ton', decimals: 0 },
  L: { unit: 'gal', decimals: 2 },
  mL: { unit: 'fl oz', decimals: 2 },
}
/** Spray concentrations only: sugar and acid of must are in g/L in these countries too. */
const STRENGTH: Record<string, Own> = {
  'g/L': { unit: 'oz/gal', decimals: 2 },
  'mL/L': { unit: 'fl oz/gal', decimals: 2 },
  'g/kg': { unit: '%', in: (value) => value / 10, decimals: 1 },
}
const SAID = new RegExp(figureIn(CUSTOMARY), 'g')
const UNIT_NAME = new RegExp(`(?<![\\w°/])(?:${longestFirst(CUSTOMARY)})(?![\\w/-])`, 'g')
const SAID_OF_SPRAY = new RegExp(figureIn({ ...CUSTOMARY, ...STRENGTH }), 'g')

function figureIn(units: Record<string, Own>): string {
  return `${SPAN} (${longestFirst(units)})(?![\\w/-])`
}

function longestFirst(units: Record<string, Own>): string {
  return Object.keys(units)
    .toSorted((a, b) => b.length - a.length)
    .join('|')
}

/** Amounts below these are measured in fluid ounces. */
const LITTLE: Record<string, number> = { L: 1, 'L/ha': 2.5 }

/**
 * The ledger's unit in place of a metric one, with its country's gallon.
 * @param amount the amount, since a small one may take a smaller unit.
 */
function ownUnit(unit: string, units: Exclude<Units, 'metric'>, amount = Infinity): Required<Own> {
  const leafWall = unit.endsWith(LEAF_WALL) ? LEAF_WALL : ''
  const own = CUSTOMARY[unit.slice(0, unit.length - leafWall.length)] ?? STRENGTH[unit]
  if (!own) return { unit, decimals: 2, in: (value) => value }
  const country = units === 'us' ? 'US' : 'imp'
  const small = amount < (LITTLE[unit] ?? 0) ? own.unit.replace('gal', 'fl oz') : own.unit
  // Ledgers have no imperial ton.
  const mass = units === 'us' ? 'US ton' : '1000 lb'
  const name = small.replace('US ton', mass).replace(/\b(fl oz|gal)\b/g, `${country} $1`) + leafWall
  return { ...own, unit: name, in: own.in ?? ((value) => convert(value, unit, name)) }
}

/**
 * Converts a metric quantity to the ledger's units, to four significant digits.
 * @param isDose whether a small amount is shown in a smaller unit.
 */
export function ownQuantity({ value, unit }: Quantity, units: Units, isDose = false): Quantity {
  if (units === 'metric') return { value, unit }
  const own = ownUnit(unit, units, isDose ? value : undefined)
  return { value: Number(own.in(value).toPrecision(4)), unit: own.unit }
}

/**
 * A metric quantity as typed in the ledger's units, to the given number of digits: `3 kg/ha`, `2.68 lb/acre`.
 * @param within limits that rounding must not cross.
 */
export function typedIn(
  { value, unit }: Quantity,
  units: Units,
  { digits = 4, within }: { digits?: number; within?: { low: number; high: number } | null } = {},
): string {
  const own = units === 'metric' ? { unit, in: (same: number) => same } : ownUnit(unit, units, value)
  const exact = own.in(value)
  const step = 10 ** (Math.floor(Math.log10(Math.abs(exact) || 1)) + 1 - digits)
  const near = Math.round(exact / step)
  const fits = [near, near - 1, near + 1].find((count) => {
    const kept = units === 'metric' ? count * step : convert(count * step, own.unit, unit)
    return !within || (kept >= within.low && kept <= within.high)
  })
  return `${Number(((fits ?? near) * step).toPrecision(digits))} ${own.unit}`
}

/** How much active substance a product holds, as the country's labels give it: `800 g/kg` is `80 %`. */
export function contentText(content: Quantity, units: Units): string {
  if (units === 'metric' || content.unit !== 'g/L') {
    const { value, unit } = ownQuantity(content, units)
    return `${value} ${unit}`
  }
  const perGallon = units === 'us' ? 'lb/US gal' : 'lb/imp gal'
  return `${Number(convert(content.value, 'g/L', perGallon).toPrecision(3))} ${perGallon}`
}

/** Words with "ha" in them, in acres where the ledger uses acres. */
export const inGround = (words: string, units: Units): string =>
  units === 'metric' ? words : words.replace(/\bper (?:ha|hectare)\b/g, 'per acre')

const rounded = (value: number, decimals: number) => String(Number(value.toFixed(decimals)))

/** mm of rain in the ledger's units: `5.2 mm`, `0.2 in`. */
export const rainText = (mm: number, units: Units): string =>
  units === 'metric' ? `${rounded(mm, 1)} mm` : `${rounded(mm / 25.4, 2)} in`

/** kg of fruit in the ledger's units, rounded to ten: `480 kg`, `1060 lb`. */
export function displayMass(kg: number, units: Units): string {
  const [mass, unit] = units === 'metric' ? [kg, 'kg'] : [convert(kg, 'kg', 'lb'), 'lb']
  return `${Math.round(mass / 10) * 10} ${unit}`
}

/** °C in the ledger's units: `29.4 °C`, `85 °F`. */
export const degreesText = (celsius: number, units: Units): string =>
  `${rounded(degreesIn(celsius, units), units === 'metric' ? 1 : 0)} ${degreeSign(units)}`

/**
 * A sentence with its figures converted to the ledger's units. Formulas give their reasons in metric units, as
 * text; this converts them. Text between backticks is quoted and stays as it is, except an
 * example, which is rounded: like `200 L` is like `50 US gal`.
 * @param about `spray` where g/L is the strength of a spray, and not sugar or acid.
 */
export function inLedgerUnits(sentence: string, units: Units, about: 'spray' | 'any' = 'any'): string {
  if (units === 'metric') return sentence
  const said = about === 'spray' ? SAID_OF_SPRAY : SAID
  return sentence
    .split(/((?:like )?`[^`]*`)/)
    .map((part) =>
      part.startsWith('`') ? part : part.replace(said, spanIn(units, part.startsWith('like `'))),
    )
    .join('')
    .replace(SAID_TWICE, '$1')
}

/** A source's own °F figure in brackets, after the same figure converted from °C. */
const SAID_TWICE = /(\d \u00b0F) \(\d+ \u00b0F\)/g

/** Unit names without figures, in the ledger's units: `L/min; km/h` becomes `US gal/min; mph`. */
export const unitNames = (names: string, units: Units): string =>
  units === 'metric' ? names : inGround(names, units).replace(UNIT_NAME, (unit) => ownUnit(unit, units).unit)

/** Converts one figure or span that was found in a sentence. */
const spanIn =
  (units: 'us' | 'imperial', isExample: boolean) =>
  (_: string, low: string, joined: string | undefined, high: string | undefined, unit: string): string => {
    const own = ownUnit(unit, units)
    const said = (text: string) => {
      const value = own.in(Number(text.replaceAll(' ', '')))
      return String(Number(isExample ? value.toPrecision(1) : value.toFixed(own.decimals)))
    }
    return `${said(low)}${high === undefined ? '' : `${joined}${said(high)}`} ${own.unit}`
  }

/** Degree-days in the ledger's units: °F days where these are not metric. */
export const heatIn = (degreeDays: number, units: Units): number =>
  units === 'metric' ? degreeDays : degreeDays * 1.8
export const heatUnit = (units: Units): string => (units === 'metric' ? '°C-days' : '°F-days')

/** A temperature as a bare number in the ledger's degrees, and their sign. */
export const degreesIn = (celsius: number, units: Units): number =>
  units === 'metric' ? celsius : FAHRENHEIT.in(celsius)
export const degreeSign = (units: Units): string => (units === 'metric' ? '°C' : '°F')
