/**
 * The units that a ledger may use, by what they measure, each with its size in the base unit of its dimension.
 * Base units: m2, m, L, kg, h, C, bar, %, km/h.
 * Factors: NIST Special Publication 811 (2008) appendix B; exact values from the legal definitions
 * (inch 25.4 mm, pound 0.453 592 37 kg, US gallon 231 in³, imperial gallon 4.546 09 L, international acre).
 */
const POUND = 0.45359237
const US_GALLON = 3.785411784
const IMPERIAL_GALLON = 4.54609
const FOOT = 0.3048
const MILE = 1609.344

// biome-ignore format: a table reads better with a line for each kind of unit
const SIZES = {
  area: { m2: 1, ha: 10_000, acre: 4046.8564224, ft2: FOOT * FOOT },
  length: { mm: 0.001, cm: 0.01, m: 1, km: 1000, in: 0.0254, ft: FOOT, mile: MILE },
  volume: {
    mL: 0.001, L: 1, hL: 100, m3: 1000,
    'US gal': US_GALLON, 'US fl oz': US_GALLON / 128, 'US pt': US_GALLON / 8, 'US qt': US_GALLON / 4,
    'imp gal': IMPERIAL_GALLON, 'imp fl oz': IMPERIAL_GALLON / 160, 'imp pt': IMPERIAL_GALLON / 8,
  },
  mass: { mg: 1e-6, g: 0.001, kg: 1, t: 1000, oz: POUND / 16, lb: POUND, 'US ton': POUND * 2000 },
  time: { s: 1 / 3600, min: 1 / 60, h: 1, d: 24, week: 168 },
  temperature: { C: 1, F: 5 / 9 },
  pressure: { bar: 1, kPa: 0.01, psi: (POUND * 9.80665) / (0.0254 * 0.0254) / 100_000 },
  share: { '%': 1 },
  speed: { mph: MILE / 1000 },
} as const

/** Freezing point of water in °F: value in °C = (value - zero) x factor. */
const FAHRENHEIT_ZERO = 32

interface Unit {
  dimension: string
  factor: number
  zero: number
}

export const UNITS: ReadonlyMap<string, Unit> = new Map(
  Object.entries(SIZES).flatMap(([dimension, sizes]) =>
    Object.entries(sizes).map(([unit, factor]): [string, Unit] => [
      unit,
      { dimension, factor, zero: unit === 'F' ? FAHRENHEIT_ZERO : 0 },
    ]),
  ),
)

/** Words that growers write for a unit and that can be read in one way only. */
// biome-ignore format: a table reads better in few lines
const WORDS = {
  L: 'l, litre, litres, liter, liters', mL: 'ml, millilitre, millilitres', hL: 'hl',
  g: 'gram, grams', kg: 'kilo, kilos', lb: 'lbs, pound, pounds', oz: 'ounce, ounces',
  'US gal': 'US gallon, US gallons', 'US pt': 'US pint, US pints', 'US qt': 'US quart, US quarts',
  'imp gal': 'imp gallon, imp gallons', 'imp pt': 'imp pint, imp pints', 'imp qt': 'imp quart, imp quarts',
  ha: 'hectare, hectares', acre: 'acres', m2: 'm²', m3: 'm³',
  m: 'metre, metres', ft: 'feet, foot', in: 'inch, inches', mile: 'miles',
  min: 'minute, minutes', h: 'hr, hrs, hour, hours', d: 'day, days', week: 'weeks', C: '°C', F: '°F',
}

export const UNIT_ALIASES: ReadonlyMap<string, string> = new Map(
  Object.entries(WORDS).flatMap(([unit, words]) => words.split(', ').map((word) => [word, unit] as const)),
)

/** Units whose name alone means different sizes in different countries: the grower must say which. */
export const AMBIGUOUS_UNITS: ReadonlyMap<string, readonly string[]> = new Map(
  [
    { words: 'gal, gallon, gallons, gals', meanings: ['US gal', 'imp gal'] },
    { words: 'fl oz', meanings: ['US fl oz', 'imp fl oz'] },
    { words: 'ac', meanings: ['acre'] },
    { words: 'pt, pint, pints, pts', meanings: ['US pt', 'imp pt'] },
    { words: 'qt, quart, quarts, qts', meanings: ['US qt'] },
    { words: 'ton, tons', meanings: ['t', 'US ton'] },
  ].flatMap(({ words, meanings }) => words.split(', ').map((word) => [word, meanings] as const)),
)

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
  const { dimension, factor: size, zero } = above
  if (bottom === undefined) return leafWall ? null : { kind: dimension, factor: size, zero }
  const [, count = '1', single = bottom] = /^(\d+(?:\.\d+)?)\s*([^\s\d].*)$/.exec(bottom) ?? []
  const below = UNITS.get(single)
  if (!below || Number(count) === 0 || [dimension, below.dimension].includes('temperature')) return null
  const factor = size / (below.factor * Number(count))
  if (dimension === 'length' && below.dimension === 'time')
    return { kind: 'speed', factor: factor / 1000, zero: 0 }
  if (leafWall && below.dimension !== 'area') return null
  return { kind: `${dimension}/${below.dimension}${leafWall ? ' leaf wall' : ''}`, factor, zero: 0 }
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
