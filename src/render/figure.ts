import type { IsoDate } from '../records/date.ts'
import type { Quantity } from '../records/quantity.ts'
import { shortDate } from '../records/spoken-date.ts'
import { convert } from '../records/units.ts'
import type { Style } from './style.ts'
import { groupDigits } from './text.ts'

/** A number with a fixed number of decimals, without a minus before zero. */
export function figure(value: number, decimals: number): string {
  const text = value.toFixed(decimals)
  return Number(text) === 0 ? text.replace('-', '') : text
}

/** The same with a plus before what rises: `+0.21`. */
export const signed = (value: number, decimals: number): string =>
  `${value > 0 ? '+' : ''}${figure(value, decimals)}`

/** What is known in words, or a dash. */
export const orDash = <T>(value: T | null, say: (value: T) => string): string =>
  value === null ? '-' : say(value)

export const figureOr = (value: number | null, decimals: number): string =>
  orDash(value, (known) => figure(known, decimals))

/** `15 Jun`, or a dash. */
export const dateOr = (date: IsoDate | null): string => orDash(date, shortDate)

/** An estimate of a weight or volume, rounded to two or three figures: `1 830 kg`. */
export function rough(quantity: Quantity | null, units: Style['units'], none = '-'): string {
  if (quantity === null) return none
  const unit = ROUGH_UNITS[units][quantity.unit] ?? quantity.unit
  return `${roughNumber(convert(quantity.value, quantity.unit, unit))} ${unit}`
}

/** Three figures, and no decimals from ten up. */
export function roughNumber(value: number): string {
  const rounded = Number(value.toPrecision(3))
  return groupDigits(Math.abs(rounded) >= 10 ? String(Math.round(rounded)) : figure(rounded, 1))
}

/** Both ends of an interval in one unit, or a dash. */
export function roughRange(low: Quantity | null, high: Quantity | null, units: Style['units']): string {
  if (low === null || high === null) return '-'
  const unit = ROUGH_UNITS[units][high.unit] ?? high.unit
  const number = (quantity: Quantity) => roughNumber(convert(quantity.value, quantity.unit, unit))
  return `${number(low)}-${number(high)} ${unit}`
}

const ROUGH_UNITS: Record<Style['units'], Record<string, string>> = {
  metric: {},
  us: { kg: 'lb', L: 'US gal', 'kg/ha': 'lb/acre' },
  imperial: { kg: 'lb', L: 'imp gal', 'kg/ha': 'lb/acre' },
}
