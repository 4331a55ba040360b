import { inSiteUnits } from '../../records/site-way.ts'
import type { Style } from '../../render/style.ts'

const SPELLED: Readonly<Record<string, string>> = {
  litre: 'L',
  liter: 'L',
  millilitre: 'mL',
  milliliter: 'mL',
  kilo: 'kg',
  kilogram: 'kg',
  gram: 'g',
  metre: 'm',
  meter: 'm',
}

/** `2 litres` as `2 L`; what is no number with a unit stays. */
const inSymbols = (text: string): string =>
  text.replace(/^(\d[\d.]*)\s*([a-z]+?)s?$/i, (whole, number: string, unit: string) => {
    const symbol = SPELLED[unit.toLowerCase()]
    return symbol === undefined ? whole : `${number} ${symbol}`
  })

/** `4 h`, `3 people`, `19.4 Brix`: what the question asks for, behind a number that has no unit in a file. */
const COUNTED =
  /^(-?\d+(?:\.\d+)?)\s{0,3}(?:h|hrs?|hours?|people|persons?|pickers?|berries|vines?|\u00b0?\s?(?:bx|brix))$/i

/** An answer to a question for a bare number, without the word for what is counted. */
export const asBareNumber = (text: string): string => COUNTED.exec(text.trim())?.[1] ?? text

/**
 * An answer as its option takes it: a bare number gets the unit that the question named, and readings may be parted
 * by spaces, with one unit behind the last.
 */
export function asTyped(
  text: string,
  { unit, isList, units }: { unit: string | undefined; isList: boolean; units: Style['units'] },
): string {
  const own = inSymbols(inSiteUnits(text.trim(), units))
  const series = /^(\d[\d.]*(?:(?:\s*,\s+|\s+|;\s*)\d[\d.]*)+)\s*([^\d\s.,;].*)?$/.exec(own)
  if (isList && series) {
    const behind = series[2] ?? unit
    const numbers = series[1]!.split(/[\s,;]+/)
    return numbers.map((number) => (behind === undefined ? number : `${number} ${behind}`)).join(', ')
  }
  return unit !== undefined && /^-?(?:\d+(?:\.\d+)?|\.\d+)$/.test(own) ? `${own} ${unit}` : own
}
