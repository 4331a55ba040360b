/**
 * The units that a ledger may use, each with the exact factor to the base unit of its dimension.
 * Factors: NIST Special Publication 811 (2008) appendix B; exact values from the legal definitions
 * (inch 25.4 mm, pound 0.453 592 37 kg, US gallon 231 in³, imperial gallon 4.546 09 L, international acre).
 */
type Dimension =
  | 'area'
  | 'length'
  | 'volume'
  | 'mass'
  | 'time'
  | 'temperature'
  | 'pressure'
  | 'share'
  | 'speed'

interface Unit {
  dimension: Dimension
  /** Base units in one of this unit; base: m2, m, L, kg, h, C, bar, %, km/h. */
  factor: number
  /** Only for temperatures: value in base = (value - zero) x factor. */
  zero?: number
}

const POUND = 0.45359237
const US_GALLON = 3.785411784
const IMPERIAL_GALLON = 4.54609
const FOOT = 0.3048
const MILE = 1609.344

export const UNITS: ReadonlyMap<string, Unit> = new Map<string, Unit>([
  ['m2', { dimension: 'area', factor: 1 }],
  ['ha', { dimension: 'area', factor: 10_000 }],
  ['acre', { dimension: 'area', factor: 4046.8564224 }],
  ['ft2', { dimension: 'area', factor: FOOT * FOOT }],
  ['mm', { dimension: 'length', factor: 0.001 }],
  ['cm', { dimension: 'length', factor: 0.01 }],
  ['m', { dimension: 'length', factor: 1 }],
  ['km', { dimension: 'length', factor: 1000 }],
  ['in', { dimension: 'length', factor: 0.0254 }],
  ['ft', { dimension: 'length', factor: FOOT }],
  ['mile', { dimension: 'length', factor: MILE }],
  ['mL', { dimension: 'volume', factor: 0.001 }],
  ['L', { dimension: 'volume', factor: 1 }],
  ['hL', { dimension: 'volume', factor: 100 }],
  ['m3', { dimension: 'volume', factor: 1000 }],
  ['US gal', { dimension: 'volume', factor: US_GALLON }],
  ['US fl oz', { dimension: 'volume', factor: US_GALLON / 128 }],
  ['US pt', { dimension: 'volume', factor: US_GALLON / 8 }],
  ['US qt', { dimension: 'volume', factor: US_GALLON / 4 }],
  ['imp gal', { dimension: 'volume', factor: IMPERIAL_GALLON }],
  ['imp fl oz', { dimension: 'volume', factor: IMPERIAL_GALLON / 160 }],
  ['imp pt', { dimension: 'volume', factor: IMPERIAL_GALLON / 8 }],
  ['mg', { dimension: 'mass', factor: 1e-6 }],
  ['g', { dimension: 'mass', factor: 0.001 }],
  ['kg', { dimension: 'mass', factor: 1 }],
  ['t', { dimension: 'mass', factor: 1000 }],
  ['oz', { dimension: 'mass', factor: POUND / 16 }],
  ['lb', { dimension: 'mass', factor: POUND }],
  ['US ton', { dimension: 'mass', factor: POUND * 2000 }],
  ['s', { dimension: 'time', factor: 1 / 3600 }],
  ['min', { dimension: 'time', factor: 1 / 60 }],
  ['h', { dimension: 'time', factor: 1 }],
  ['d', { dimension: 'time', factor: 24 }],
  ['week', { dimension: 'time', factor: 168 }],
  ['C', { dimension: 'temperature', factor: 1, zero: 0 }],
  ['F', { dimension: 'temperature', factor: 5 / 9, zero: 32 }],
  ['bar', { dimension: 'pressure', factor: 1 }],
  ['kPa', { dimension: 'pressure', factor: 0.01 }],
  ['psi', { dimension: 'pressure', factor: (POUND * 9.80665) / (0.0254 * 0.0254) / 100_000 }],
  ['%', { dimension: 'share', factor: 1 }],
  ['mph', { dimension: 'speed', factor: MILE / 1000 }],
])

/** Words that growers write for a unit and that can be read in one way only. */
export const UNIT_ALIASES: ReadonlyMap<string, string> = new Map([
  ['l', 'L'],
  ['ml', 'mL'],
  ['hl', 'hL'],
  ['lbs', 'lb'],
  ['litre', 'L'],
  ['litres', 'L'],
  ['liter', 'L'],
  ['liters', 'L'],
  ['millilitre', 'mL'],
  ['millilitres', 'mL'],
  ['gram', 'g'],
  ['grams', 'g'],
  ['kilo', 'kg'],
  ['kilos', 'kg'],
  ['pound', 'lb'],
  ['pounds', 'lb'],
  ['ounce', 'oz'],
  ['ounces', 'oz'],
  ['hectare', 'ha'],
  ['hectares', 'ha'],
  ...['US', 'imp'].flatMap((system) =>
    [
      ['gallon', 'gal'],
      ['gallons', 'gal'],
      ['pint', 'pt'],
      ['pints', 'pt'],
      ['quart', 'qt'],
      ['quarts', 'qt'],
    ].map(([word, unit]): [string, string] => [`${system} ${word}`, `${system} ${unit}`]),
  ),
  ['acres', 'acre'],
  ['metre', 'm'],
  ['metres', 'm'],
  ['feet', 'ft'],
  ['foot', 'ft'],
  ['inch', 'in'],
  ['inches', 'in'],
  ['minute', 'min'],
  ['minutes', 'min'],
  ['hr', 'h'],
  ['hrs', 'h'],
  ['miles', 'mile'],
  ['day', 'd'],
  ['days', 'd'],
  ['weeks', 'week'],
  ['hours', 'h'],
  ['hour', 'h'],
  ['°C', 'C'],
  ['°F', 'F'],
  ['m²', 'm2'],
  ['m³', 'm3'],
])

/** Units whose name alone means different sizes in different countries: the grower must say which. */
export const AMBIGUOUS_UNITS: ReadonlyMap<string, readonly string[]> = new Map([
  ['gal', ['US gal', 'imp gal']],
  ['gallon', ['US gal', 'imp gal']],
  ['gallons', ['US gal', 'imp gal']],
  ['gals', ['US gal', 'imp gal']],
  ['fl oz', ['US fl oz', 'imp fl oz']],
  ['ac', ['acre']],
  ['pt', ['US pt', 'imp pt']],
  ['pint', ['US pt', 'imp pt']],
  ['pints', ['US pt', 'imp pt']],
  ['pts', ['US pt', 'imp pt']],
  ['qt', ['US qt']],
  ['quart', ['US qt']],
  ['quarts', ['US qt']],
  ['qts', ['US qt']],
  ['ton', ['t', 'US ton']],
  ['tons', ['t', 'US ton']],
])

/** A unit as typed, resolved: what it measures, and how to bring a value into base units. */
interface Measure {
  /** `mass`, or `mass/area` for a quotient; `mass/area leaf wall` for a dose on leaf wall. */
  kind: string
  factor: number
  zero: number
}

/**
 * Resolves a unit as typed (`kg/ha`, `mL/100 L`, `L/10000 m2 leaf wall`, `F`).
 * @returns the measure, or null where a part of it is no unit that a ledger knows.
 */
export function measureOf(unit: string): Readonly<Measure> | null {
  const leafWall = / leaf wall$/.test(unit)
  const [top, bottom, ...rest] = (leafWall ? unit.slice(0, -10) : unit).split('/').map((part) => part.trim())
  if (rest.length > 0 || top === undefined) return null
  const above = UNITS.get(top)
  if (!above) return null
  if (bottom === undefined) {
    return leafWall ? null : { kind: above.dimension, factor: above.factor, zero: above.zero ?? 0 }
  }
  const counted = /^(\d+(?:\.\d+)?)\s*([^\s\d].*)$/.exec(bottom)
  const below = UNITS.get(counted ? counted[2]! : bottom)
  const count = counted ? Number(counted[1]) : 1
  if (!below || count === 0 || above.zero !== undefined || below.zero !== undefined) return null
  const factor = above.factor / (below.factor * count)
  if (above.dimension === 'length' && below.dimension === 'time')
    return { kind: 'speed', factor: factor / 1000, zero: 0 }
  if (leafWall && below.dimension !== 'area') return null
  return { kind: `${above.dimension}/${below.dimension}${leafWall ? ' leaf wall' : ''}`, factor, zero: 0 }
}

/**
 * Converts a value between two units of one kind.
 * @throws RangeError where either unit is unknown or the two measure different things.
 */
export function convert(value: number, from: string, to: string): number {
  if (from === to) return value
  const a = measureOf(from)
  const b = measureOf(to)
  if (!a || !b || a.kind !== b.kind)
    throw new RangeError(`convert requires two units of one kind, got ${from} and ${to}`)
  return ((value - a.zero) * a.factor) / b.factor + b.zero
}

/** The units that a dose is kept in: per ground area or leaf wall area, and for a volume of spray. */
export const RATE_UNITS = ['kg/ha', 'L/ha', 'kg/ha leaf wall', 'L/ha leaf wall'] as const
export const CONCENTRATION_UNITS = ['g/L', 'mL/L', '%'] as const
