const BRIX = [10, 15, 20, 25, 30]

/** °C, the correction in Brix at each of BRIX, and whether the row was read in the source or is from memory. */
const ROWS: readonly (readonly [number, readonly number[], 'read' | 'memory'])[] = [
  [5, [-0.82, -0.87, -0.92, -0.95, -0.99], 'read'],
  [6, [-0.8, -0.82, -0.87, -0.9, -0.94], 'memory'],
  [7, [-0.74, -0.78, -0.82, -0.84, -0.88], 'read'],
  [8, [-0.69, -0.73, -0.76, -0.79, -0.82], 'memory'],
  [9, [-0.64, -0.67, -0.71, -0.73, -0.75], 'memory'],
  [10, [-0.59, -0.62, -0.65, -0.67, -0.69], 'read'],
  [11, [-0.54, -0.57, -0.59, -0.61, -0.63], 'memory'],
  [12, [-0.49, -0.51, -0.53, -0.55, -0.56], 'read'],
  [13, [-0.43, -0.45, -0.47, -0.48, -0.5], 'memory'],
  [14, [-0.38, -0.39, -0.4, -0.42, -0.43], 'read'],
  [15, [-0.32, -0.33, -0.34, -0.35, -0.36], 'memory'],
  [16, [-0.26, -0.27, -0.28, -0.28, -0.29], 'read'],
  [17, [-0.2, -0.2, -0.21, -0.21, -0.22], 'memory'],
  [18, [-0.13, -0.14, -0.14, -0.14, -0.15], 'memory'],
  // The definition.
  [20, [0, 0, 0, 0, 0], 'read'],
  [22, [0.14, 0.14, 0.15, 0.15, 0.15], 'memory'],
  [25, [0.36, 0.37, 0.38, 0.38, 0.39], 'memory'],
  [28, [0.6, 0.61, 0.62, 0.63, 0.64], 'memory'],
  [30, [0.77, 0.78, 0.79, 0.8, 0.81], 'memory'],
]
/** Largest error of a row from memory, Brix: a line or curve through the read rows comes within this. */
const MEMORY_WITHIN = 0.03

interface TemperatureCorrection {
  /** Brix at 20 °C; null when the table can't say. */
  brix: number | null
  /** What was added to the reading. */
  correction: number | null
  /** Brix at 20 °C at the least and the most; both are `brix` where the row was read in the source. */
  low: number | null
  high: number | null
  /**
   * How the correction is known: by a row that was read, or also by one from memory; null when nothing was corrected.
   */
  basis: 'read' | 'memory' | null
  reason: string | null
}

/** Index of the interval of ascending `edges` that holds `at`. */
function intervalOf(edges: readonly number[], at: number): number {
  const found = edges.findIndex((_, i) => i > 0 && at <= edges[i]!)
  return found - 1
}

function mix(a: number, b: number, share: number): number {
  return a + (b - a) * share
}

/**
 * Brings the Brix read on a refractometer WITHOUT temperature compensation at `celsius` to 20 °C. Colder than 20 °C it
 * reads too high. Never use it on a compensating instrument. At a temperature whose row is held, that row, linear
 * between its columns; else linear between the rows on both sides. Where a row that was used is from memory, `low` and
 * `high` leave 0.03 on either side. Refuses, with the reason, outside 5-30 °C or 10-30 Brix. Throws a RangeError when a
 * number is missing. Source: OIV-MA-AS2-02, table I (OIV Compendium, p. 49), which prints a row for each degree. The
 * rows at 5, 7, 10, 12, 14 and 16 °C were read, and 20 °C is the definition; the others are from memory. Those from 6
 * to 18 °C lie within 0.03 of straight lines between the read rows, and a quadratic through the read rows comes within
 * 0.03 of those above 20 °C.
 */
export function correctForTemperature(reading: number, celsius: number): TemperatureCorrection {
  if (!Number.isFinite(reading) || !Number.isFinite(celsius)) {
    throw new RangeError('correctForTemperature requires a reading and a temperature')
  }
  if (celsius === 20) return corrected(reading, 0, 'read')
  const refuse = (reason: string): TemperatureCorrection => ({
    brix: null,
    low: null,
    high: null,
    correction: null,
    basis: null,
    reason,
  })
  if (celsius < 5 || celsius > 30) return refuse('the correction table runs from 5 to 30 °C')
  if (reading < 10 || reading > 30) return refuse('the correction table runs from 10 to 30 Brix')
  const column = intervalOf(BRIX, reading)
  const along = (reading - BRIX[column]!) / (BRIX[column + 1]! - BRIX[column]!)
  const inRow = (values: readonly number[]) => mix(values[column]!, values[column + 1]!, along)
  const held = ROWS.find(([row]) => row === celsius)
  if (held) return corrected(reading, inRow(held[1]), held[2])
  const row = intervalOf(
    ROWS.map(([degrees]) => degrees),
    celsius,
  )
  const [colder, cold] = ROWS[row]!
  const [warmer, warm] = ROWS[row + 1]!
  // Of two neighbouring rows one at least is from memory.
  return corrected(reading, mix(inRow(cold), inRow(warm), (celsius - colder) / (warmer - colder)), 'memory')
}

function corrected(reading: number, correction: number, basis: 'read' | 'memory'): TemperatureCorrection {
  const brix = reading + correction
  const off = basis === 'memory' ? MEMORY_WITHIN : 0
  return { brix, correction, low: brix - off, high: brix + off, basis, reason: null }
}
