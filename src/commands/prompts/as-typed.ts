import type { Style } from '../../render/style.ts'

/** Units of volume that the US and the imperial system share a name of. */
const SHARED_NAMES = /(?<!\b(?:US|imp)\s{0,9})\b(?:gal(?:lons?)?|fl\.? ?oz|pints?|pt|quarts?|qt)\b/gi
const SHORT: readonly [RegExp, string][] = [
  [/^gal/i, 'gal'],
  [/^fl/i, 'fl oz'],
  [/^p/i, 'pt'],
  [/^q/i, 'qt'],
]

/** A quantity with the names of units that its site leaves no doubt of: `12 gal` in the US is `12 US gal`. */
export function inSiteUnits(text: string, units: Style['units']): string {
  if (units === 'metric') return text
  const system = units === 'us' ? 'US' : 'imp'
  return text
    .replace(SHARED_NAMES, (word) => `${system} ${SHORT.find(([name]) => name.test(word))![1]}`)
    .replace(/\/ac\b|(?<=\d\s{0,9})\bac\b/gi, (word) => word.replace(/ac/i, 'acre'))
}

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
  return unit !== undefined && /^-?\d+(?:\.\d+)?$/.test(own) ? `${own} ${unit}` : own
}
