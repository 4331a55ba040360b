import { type IsoDate, shortDate } from '../records/date.ts'

/** A number with so many decimals, without a minus before zero. */
export function figure(value: number, decimals: number): string {
  const text = value.toFixed(decimals)
  return Number(text) === 0 ? text.replace('-', '') : text
}

/** The same, or a dash where the figure isn't known. */
export const figureOr = (value: number | null, decimals: number, none = '-'): string =>
  value === null ? none : figure(value, decimals)

/** `15 Jun`, or a dash. */
export const dateOr = (date: IsoDate | null, none = '-'): string => (date === null ? none : shortDate(date))
