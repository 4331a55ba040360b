import type { Ledger } from '../ledger/read/ledger.ts'
import { convert } from '../records/units.ts'

type Units = Ledger['vineyard']['units']

const NUMBER = '[+-]?(?:\\d{1,3}(?: \\d{3})+|\\d+)(?:\\.\\d+)?'
const SPAN = `(?<![\\d.])(${NUMBER})(?:(-| to )(${NUMBER}))?`

/** Units of the program that sentences hold, each with the unit of a US or imperial ledger and the decimals it is said with. */
const CUSTOMARY: Record<string, { unit: string; in: (value: number) => number; decimals: number }> = {
  '°C-days': { unit: '°F-days', in: (value) => value * 1.8, decimals: 0 },
  '°C': { unit: '°F', in: (value) => value * 1.8 + 32, decimals: 0 },
  C: { unit: '°F', in: (value) => value * 1.8 + 32, decimals: 0 },
  mm: { unit: 'in', in: (value) => value / 25.4, decimals: 2 },
  'kg/ha': { unit: 'lb/acre', in: (value) => convert(value, 'kg/ha', 'lb/acre'), decimals: 2 },
  'g/ha': { unit: 'oz/acre', in: (value) => convert(value, 'g/ha', 'oz/acre'), decimals: 2 },
  'kg/h': { unit: 'lb/h', in: (value) => convert(value, 'kg/h', 'lb/h'), decimals: 0 },
  kg: { unit: 'lb', in: (value) => convert(value, 'kg', 'lb'), decimals: 1 },
  ha: { unit: 'acre', in: (value) => convert(value, 'ha', 'acre'), decimals: 2 },
  'm/s': { unit: 'mph', in: (value) => convert(value, 'm/s', 'mph'), decimals: 0 },
  'km/h': { unit: 'mph', in: (value) => convert(value, 'km/h', 'mph'), decimals: 1 },
}
/** Those of which the gallon of the country is part. */
const LIQUID = ['L/ha', 'L/min', 'L'] as const
const SAID = new RegExp(
  `${SPAN} (${[...Object.keys(CUSTOMARY), ...LIQUID].toSorted((a, b) => b.length - a.length).join('|')})(?![\\w/-])`,
  'g',
)

/** mm of rain as the ledger says it: `5.2 mm`, `0.2 in`. */
export const sayRain = (mm: number, units: Units): string =>
  units === 'metric' ? `${plain(mm)} mm` : `${inches(mm)} in`

/** kg of fruit as the ledger says it, to the ten: `480 kg`, `1060 lb`. */
export const displayMass = (kg: number, units: Units): string =>
  units === 'metric' ? `${tens(kg)} kg` : `${tens(kg / 0.45359237)} lb`

const tens = (value: number) => String(Math.round(value / 10) * 10)

/** °C as the ledger says it: `29.4 °C`, `85 °F`. */
export const sayDegrees = (celsius: number, units: Units): string =>
  units === 'metric' ? `${plain(celsius)} °C` : `${fahrenheit(celsius)} °F`

/**
 * A sentence with its figures in the units of the ledger. Formulas give their reasons in the program's own units, as
 * words; this is where they take on the grower's. What stands between backticks is quoted, and stays.
 */
export function inBookUnits(sentence: string, units: Units): string {
  if (units === 'metric') return sentence
  return sentence
    .split(/(`[^`]*`)/)
    .map((part) => (part.startsWith('`') ? part : part.replace(SAID, (...found) => spanIn(found, units))))
    .join('')
}

function spanIn(found: string[], units: 'us' | 'imperial'): string {
  const [, low, joined, high, unit] = found as [
    string,
    string,
    string | undefined,
    string | undefined,
    string,
  ]
  const own = CUSTOMARY[unit] ?? liquid(unit, units)
  const said = (text: string) =>
    String(Number(own.in(Number(text.replaceAll(' ', ''))).toFixed(own.decimals)))
  return `${said(low)}${high === undefined ? '' : `${joined}${said(high)}`} ${own.unit}`
}

function liquid(unit: string, units: 'us' | 'imperial') {
  const gallon = units === 'us' ? 'US gal' : 'imp gal'
  const own = { 'L/ha': `${gallon}/acre`, 'L/min': `${gallon}/min`, L: gallon }[unit]!
  return { unit: own, in: (value: number) => convert(value, unit, own), decimals: 2 }
}

/** Degree-days as the ledger counts them, and what they are called: °F days where its units are not metric. */
export const heatIn = (degreeDays: number, units: Units): number =>
  units === 'metric' ? degreeDays : degreeDays * 1.8
export const heatUnit = (units: Units): string => (units === 'metric' ? '°C-days' : '°F-days')

/** A temperature as a bare number in the ledger's own degrees, and their sign. */
export const degreesIn = (celsius: number, units: Units): number =>
  units === 'metric' ? celsius : celsius * 1.8 + 32
export const degreeSign = (units: Units): string => (units === 'metric' ? '°C' : '°F')

const plain = (value: number) => String(Number(value.toFixed(1)))
const inches = (mm: number) => String(Number((mm / 25.4).toFixed(2)))
const fahrenheit = (celsius: number) => String(Number((celsius * 1.8 + 32).toFixed(0)))
