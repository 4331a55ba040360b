import { distance } from 'fastest-levenshtein'
import type { NamedFault, Read } from './fault.ts'
import { AMBIGUOUS_UNITS, convert, measureOf, UNIT_ALIASES, UNITS } from './units.ts'

/** A value with its unit, as the JSON contract prints it. */
export interface Quantity {
  value: number
  unit: string
}

/** A span of values in one unit; `low` equals `high` where a single value was written. */
export interface Range {
  low: number
  high: number
  unit: string
}

type QuantityResult = Read<{ range: Range }, NamedFault>

const NUMBER = '[+-]?(?:\\d+(?:\\.\\d+)?|\\.\\d+)'
const SHAPE = new RegExp(`^(${NUMBER})(?:\\s*(?:-|–|\\bto\\b)\\s*(${NUMBER}))?(?:\\s*([^\\s\\d].*))?$`)

/**
 * Reads a quantity or a range (`3 kg/ha`, `2-6 kg/ha`, `0.45ha`).
 * @param text as typed; a bare number is a fault, unless `accepts` holds '' (no unit).
 * @param accepts the units that the field is kept in, one for each kind of measure that it takes.
 * @returns the range in the accepted unit of its kind, or the fault.
 */
export function readRange(text: string, accepts: readonly string[]): QuantityResult {
  const typed = text.trim()
  if (COMMA.test(typed))
    return fault('decimal-comma', `\`${typed}\` has a comma in its number`, commaHelp(typed))
  const [, first, second = first, written = ''] = SHAPE.exec(typed) ?? []
  if (first === undefined)
    return fault(
      'not-a-quantity',
      `\`${typed}\` is not a number with a unit`,
      `write it as ${exampleOf(accepts)}`,
    )
  const [low, high] = [Number(first), Number(second)]
  if (!Number.isFinite(low) || !Number.isFinite(high))
    return fault('not-a-quantity', `\`${typed}\` is too large a number`, 'check the figure')
  if (high < low)
    return fault('not-a-quantity', `the range \`${typed}\` runs backwards`, 'write the lower figure first')
  // Most quantities are written in the unit they are kept in.
  if (accepts.includes(written)) return { range: { low, high, unit: written } }
  const unit = normalUnit(written)
  if (unit === '')
    return fault('needs-unit', `\`${typed}\` has no unit`, `write the unit: ${unitsLike(accepts).join(', ')}`)
  return withUnit({ low, high, unit }, accepts, typed)
}

/** Reads a single value; a range is a fault. Otherwise like `readRange`. */
export function readQuantity(text: string, accepts: readonly string[]): QuantityResult {
  const result = readRange(text, accepts)
  if (result.range && result.range.low !== result.range.high) {
    return fault(
      'not-a-quantity',
      `\`${text.trim()}\` is a range where one value is wanted`,
      'write one value',
    )
  }
  return result
}

/** A range in the accepted unit of its kind. */
function withUnit({ low, high, unit }: Range, accepts: readonly string[], text: string): QuantityResult {
  const doubtful = doubtfulPart(unit)
  if (doubtful) {
    const [word, meanings] = doubtful
    const proposals = meanings.map((meaning) => text.replace(word, meaning).replace(/\bac\b/, 'acre'))
    return fault(
      'ambiguous-unit',
      word === 'ac'
        ? '`ac` is an acre only where vineyard.yaml says `units: us` or `units: uk`'
        : `\`${word}\` is not the same everywhere`,
      `write ${proposals.map(quoted).join(' or ')}`,
    )
  }
  const kind = kindOf(unit)
  const unitsHere = `units here: ${unitsLike(accepts).join(', ')}`
  if (kind === undefined) {
    const near = nearestUnit(unit, accepts)
    return fault(
      'unknown-unit',
      `\`${unit}\` is not a unit that rowbook knows`,
      near ? `did you mean \`${near}\`?` : unitsHere,
    )
  }
  const own = accepts.find((candidate) => kindOf(candidate) === kind)
  if (own === undefined) return fault('wrong-unit', `\`${text}\` is ${nameOfKind(kind)}`, unitsHere)
  return { range: { low: convert(low, unit, own), high: convert(high, unit, own), unit: own } }
}

function fault(name: string, message: string, help: string): QuantityResult {
  return { fault: { name, message, help } }
}

/** A number with a comma, alone or at either end of a range, followed only by a unit. */
const COMMA = /^[+-]?(?:\d+,\d+|\d+(?:\.\d+)?\s*(?:-|\u2013|\bto\b)\s*\d+,\d+)(?:[^\d,].*)?$/

function commaHelp(text: string): string {
  const spaced = text.replace(/(\d)(?=[a-z%\u00b0])/gi, '$1 ')
  const point = spaced.replace(/(\d),(?=\d)/g, '$1.')
  if (!/(?<!\d)[1-9]\d*,\d{3}(?!\d)/.test(text)) return `write a point: \`${point}\``
  return `write a point for decimals, \`${point}\`, and no mark for thousands, \`${spaced.replace(/(\d),(?=\d)/g, '$1')}\``
}

const quoted = (text: string) => `\`${text}\``

const normalUnit = (unit: string): string =>
  unit
    .trim()
    .replace(/\s+/g, ' ')
    // Labels print `50 g in 10 L of water`, `3 kg per ha`, `3 kg ha-1` and `20 g to 10 L`.
    .replace(/ of (?:water|spray)$/i, '')
    .replace(/ (ha|L|acre)\s?[-\u2212]1$/, '/$1')
    .replace(/^(\S+(?: \S+)*?) (?:(?:in|per) (?=\S)|to (?=\d))/, '$1/')
    .split('/')
    .map((part) => part.trim())
    .map((part) => {
      const counted = /^(\d+(?:\.\d+)?)\s*([^\s\d].*)$/.exec(part)
      return counted ? `${counted[1]} ${symbolOf(counted[2]!)}` : symbolOf(part)
    })
    .join('/')

/** The symbol of a spelled-out unit, in any case; short names differ by case. */
const symbolOf = (unit: string): string =>
  UNIT_ALIASES.get(unit) ?? (unit.length > 3 ? UNIT_ALIASES.get(unit.toLowerCase()) : undefined) ?? unit

function doubtfulPart(unit: string): [string, readonly string[]] | null {
  for (const part of unit.split('/')) {
    const bare = part.replace(/^\d+(?:\.\d+)?\s*/, '')
    const meanings = AMBIGUOUS_UNITS.get(bare)
    if (meanings) return [bare, meanings]
  }
  return null
}

/** The units a field takes, in the order a grower would look for them: its own first, then others of its kind. */
export function unitsLike(accepts: readonly string[]): string[] {
  const own = accepts.filter((unit) => unit !== '')
  const list = new Set(
    own.flatMap((unit) => [unit, ...OFFERED.filter((other) => kindOf(other) === kindOf(unit))]),
  )
  return [...list]
}

/** Units of the two customary systems; those of a country bear its name. */
const CUSTOMARY = /\b(?:US|imp|acre|ft2?|in|mile|oz|lb|psi|mph|F)\b/
const LISTED = /((?:write the unit|units here): )([^;`]+)/
const MOST = 6

const LIKE = /(?<=, like `3 )[^`]+/

/** Help that lists all units of a field or gives an example, with no more than six: those of the site's own system. */
export function inUnitsOf(help: string, units: 'metric' | 'us' | 'imperial'): string {
  const other = units === 'us' ? 'imp ' : 'US '
  const ownOf = (all: readonly string[]) => {
    const own = all.filter((unit) => {
      const customary = CUSTOMARY.test(unit)
      const isOwn = units === 'metric' ? !customary : customary && !unit.startsWith(other)
      return isOwn || NEITHER.includes(unit)
    })
    return own.length > 0 ? own : all
  }
  return help
    .replace(LIKE, (unit) => ownOf(unitsLike([unit]))[0]!)
    .replace(LISTED, (_, before: string, list: string) => {
      const shown = ownOf(list.split(', '))
      const kinds = [...new Set(shown.map(kindOf))]
      const each = Math.max(1, Math.floor(MOST / kinds.length))
      return (
        before +
        kinds.flatMap((kind) => shown.filter((unit) => kindOf(unit) === kind).slice(0, each)).join(', ')
      )
    })
}

const kindOf = (unit: string) => measureOf(unit)?.kind
const NEITHER = ['%', 'd', 'h', 'min', 's']

const OFFERED = [
  ...[...UNITS.keys()].filter((unit) => unit !== 'mg'),
  'kg/ha', 'g/ha', 'L/ha', 'mL/ha', 'lb/acre', 'oz/acre', 'US gal/acre', 'US fl oz/acre', 'US pt/acre', 'imp gal/acre',
  'g/L', 'g/hL', 'g/kg', 'mL/L', 'mL/hL', 'L/min', 'US gal/min', 'km/h', 'm/s', 'mph', 'kg/h', 'lb/h', 'L/t',
] // biome-ignore format: a list reads better in few lines

function nearestUnit(unit: string, accepts: readonly string[]): string | null {
  const candidates = unitsLike(accepts)
  const exact = candidates.find((candidate) => candidate.toLowerCase() === unit.toLowerCase())
  if (exact) return exact
  const ranked = candidates
    .map((candidate) => ({ candidate, off: distance(candidate, unit) }))
    .sort((a, b) => a.off - b.off)
  return ranked[0] && ranked[0].off <= 2 ? ranked[0].candidate : null
}

function exampleOf(accepts: readonly string[]): string {
  const first = accepts.find((unit) => unit !== '')
  return first === undefined
    ? 'a plain number, like 21.5'
    : `a number, a space and a unit, like \`3 ${first}\``
}

function nameOfKind(kind: string): string {
  const [top, bottom] = kind.split('/')
  const name = top === 'area' ? 'an area' : `a ${top}`
  return bottom ? `${name} per ${bottom.replace(/^time$/, 'hour or minute')}` : name
}
