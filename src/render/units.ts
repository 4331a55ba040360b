import type { Quantity } from '../records/quantity.ts'
import { convert } from '../records/units.ts'
import type { Style } from './style.ts'
import { groupDigits } from './text.ts'

/** A unit to print, with its decimals, for values from `from` up; of several steps the first that fits is used. */
interface Step {
  unit: string
  from: number
  decimals: number
}

const kilograms: Step[] = [
  { unit: 'kg', from: 100, decimals: 1 },
  { unit: 'kg', from: 1, decimals: 3 },
  { unit: 'g', from: 100, decimals: 0 },
  { unit: 'g', from: 10, decimals: 1 },
  { unit: 'g', from: 0, decimals: 2 },
]
const litres: Step[] = [
  { unit: 'L', from: 100, decimals: 0 },
  { unit: 'L', from: 10, decimals: 1 },
  { unit: 'L', from: 1, decimals: 3 },
  { unit: 'mL', from: 100, decimals: 0 },
  { unit: 'mL', from: 10, decimals: 1 },
  { unit: 'mL', from: 0, decimals: 2 },
]
const plain = (unit: string): Step[] => [
  { unit, from: 100, decimals: 0 },
  { unit, from: 10, decimals: 1 },
  { unit, from: 1, decimals: 2 },
  { unit, from: 0, decimals: 3 },
]
const pounds: Step[] = [
  { unit: 'lb', from: 100, decimals: 1 },
  { unit: 'lb', from: 1, decimals: 3 },
  { unit: 'oz', from: 0, decimals: 2 },
]
const gallons = (system: 'US' | 'imp'): Step[] => [
  { unit: `${system} gal`, from: 100, decimals: 0 },
  { unit: `${system} gal`, from: 10, decimals: 1 },
  { unit: `${system} gal`, from: 1, decimals: 2 },
  { unit: `${system} fl oz`, from: 0, decimals: 2 },
]
const perAcre = (system: 'US' | 'imp'): Step[] => [
  { unit: `${system} gal/acre`, from: 10, decimals: 1 },
  { unit: `${system} gal/acre`, from: 1, decimals: 2 },
  { unit: `${system} fl oz/acre`, from: 0, decimals: 2 },
]

const METRIC: Record<string, Step[]> = {
  kg: kilograms,
  L: litres,
  ha: [
    { unit: 'ha', from: 0.01, decimals: 3 },
    { unit: 'm2', from: 0, decimals: 0 },
  ],
  'kg/ha': [
    ...plain('kg/ha').slice(0, 3),
    { unit: 'kg/ha', from: 0.01, decimals: 3 },
    { unit: 'g/ha', from: 0, decimals: 2 },
  ],
  'L/ha': [
    ...plain('L/ha').slice(0, 3),
    { unit: 'L/ha', from: 0.01, decimals: 3 },
    { unit: 'mL/ha', from: 0, decimals: 2 },
  ],
}

const customary = (system: 'US' | 'imp'): Record<string, Step[]> => ({
  kg: pounds,
  L: gallons(system),
  ha: [
    { unit: 'acre', from: 0.1, decimals: 2 },
    { unit: 'acre', from: 0.025, decimals: 3 },
    { unit: 'ft2', from: 0, decimals: 0 },
  ],
  m: [
    { unit: 'ft', from: 1, decimals: 1 },
    { unit: 'in', from: 0, decimals: 1 },
  ],
  'kg/ha': [
    { unit: 'lb/acre', from: 100, decimals: 0 },
    { unit: 'lb/acre', from: 0.1, decimals: 2 },
    { unit: 'oz/acre', from: 0, decimals: 2 },
  ],
  'L/ha': perAcre(system),
  'g/L': [
    { unit: `oz/${system} gal`, from: 0.1, decimals: 2 },
    { unit: `oz/100 ${system} gal`, from: 0, decimals: 2 },
  ],
  'mL/L': [
    { unit: `${system} fl oz/${system} gal`, from: 0.1, decimals: 2 },
    { unit: `${system} fl oz/100 ${system} gal`, from: 0, decimals: 2 },
  ],
  'L/min': plain(`${system} gal/min`),
  'km/h': plain('mph'),
  'm/s': plain('mph'),
  bar: plain('psi'),
  C: [{ unit: 'F', from: -Infinity, decimals: 0 }],
  mm: plain('in'),
  km: plain('mile'),
})

const TABLES: Record<Style['units'], Record<string, Step[]>> = {
  metric: METRIC,
  us: customary('US'),
  imperial: customary('imp'),
}

/** A quantity as it is printed: number and unit apart, so that columns can be aligned. */
function displayParts({ value, unit }: Quantity, units: Style['units']): { number: string; unit: string } {
  const steps = TABLES[units][unit] ?? plain(unit)
  const step =
    steps.find(
      (candidate) =>
        roundTo(Math.abs(convert(value, unit, candidate.unit)), candidate.decimals) >= candidate.from,
    ) ?? steps.at(-1)!
  const zero = value === 0 ? (steps[0] ?? step) : step
  const shown = roundTo(convert(value, unit, zero.unit), zero.decimals)
  return { number: groupDigits(Object.is(shown, -0) ? 0 : shown), unit: zero.unit }
}

/** A metric quantity as text in the requested units, rounded to what a scale or jug shows. */
export function display(quantity: Quantity, units: Style['units']): string {
  const { number, unit } = displayParts(quantity, units)
  return unit === '' ? number : unit === '%' ? `${number} %` : `${number} ${unit}`
}

/** A range, both ends in the unit of its upper end. */
export function displayRange(
  range: { low: number; high: number; unit: string },
  units: Style['units'],
): string {
  const high = displayParts({ value: range.high, unit: range.unit }, units)
  if (range.low === range.high) return `${high.number} ${high.unit}`
  const low = convert(range.low, range.unit, high.unit)
  return `${groupDigits(low < 100 ? Number(low.toPrecision(3)) : Math.round(low))}-${high.number} ${high.unit}`
}

function roundTo(value: number, decimals: number): number {
  return Number(value.toFixed(decimals))
}
