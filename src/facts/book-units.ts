import type { Ledger } from '../ledger/read/ledger.ts'

type Units = Ledger['vineyard']['units']

const NUMBER = '[+-]?\\d+(?:\\.\\d+)?'
const SPAN = `(${NUMBER})(?:(-| to )(${NUMBER}))?`
const RAIN = new RegExp(`${SPAN} mm\\b`, 'g')
const DEGREES = new RegExp(`${SPAN} (?:°C|C)(?![\\w-])`, 'g')

/** mm of rain as the book says it: `5.2 mm`, `0.2 in`. */
export const sayRain = (mm: number, units: Units): string =>
  units === 'metric' ? `${plain(mm)} mm` : `${inches(mm)} in`

/** kg of fruit as the book says it, to the ten: `480 kg`, `1060 lb`. */
export const displayMass = (kg: number, units: Units): string =>
  units === 'metric' ? `${tens(kg)} kg` : `${tens(kg / 0.45359237)} lb`

const tens = (value: number) => String(Math.round(value / 10) * 10)

/** °C as the book says it: `29.4 °C`, `85 °F`. */
export const sayDegrees = (celsius: number, units: Units): string =>
  units === 'metric' ? `${plain(celsius)} °C` : `${fahrenheit(celsius)} °F`

/**
 * A sentence with its mm of rain and °C in the units of the book. Formulas give their reasons in SI, as words; this is
 * where they take on the grower's units. Sums of degree-days (`°C-days`) stay as they are.
 */
export function inBookUnits(sentence: string, units: Units): string {
  if (units === 'metric') return sentence
  const spans =
    (say: (value: number) => string, unit: string) =>
    (_: string, low: string, joined: string | undefined, high: string | undefined) =>
      `${say(Number(low))}${high === undefined ? '' : `${joined}${say(Number(high))}`} ${unit}`
  return sentence.replace(RAIN, spans(inches, 'in')).replace(DEGREES, spans(fahrenheit, '°F'))
}

const plain = (value: number) => String(Number(value.toFixed(1)))
const inches = (mm: number) => String(Number((mm / 25.4).toFixed(2)))
const fahrenheit = (celsius: number) => String(Number((celsius * 1.8 + 32).toFixed(0)))
