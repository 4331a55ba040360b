const BRIX = [10, 15, 20, 25, 30]

/** °C, then the correction in Brix at each of BRIX. */
const ROWS: readonly (readonly [number, readonly number[]])[] = [
  [5, [-0.82, -0.87, -0.92, -0.95, -0.99]],
  [7, [-0.74, -0.78, -0.82, -0.84, -0.88]],
  [10, [-0.59, -0.62, -0.65, -0.67, -0.69]],
  [12, [-0.49, -0.51, -0.53, -0.55, -0.56]],
  [14, [-0.38, -0.39, -0.4, -0.42, -0.43]],
  [16, [-0.26, -0.27, -0.28, -0.28, -0.29]],
  // The definition; the rows above it are from memory.
  [20, [0, 0, 0, 0, 0]],
  [22, [0.14, 0.14, 0.15, 0.15, 0.15]],
  [25, [0.36, 0.37, 0.38, 0.38, 0.39]],
  [28, [0.6, 0.61, 0.62, 0.63, 0.64]],
  [30, [0.77, 0.78, 0.79, 0.8, 0.81]],
]
const LAST_PRINTED_ROW = 20
/** Brix by which a row from memory may be off: a curve through the printed rows comes within this of each. */
const MEMORY_WITHIN = 0.03

interface TemperatureCorrection {
  /** Brix at 20 °C; null when the table can't say. Where `low` and `high` differ it is their likely middle only. */
  brix: number | null
  /** What was added to the reading. */
  correction: number | null
  /**
   * Brix at 20 °C by the rows on both sides of this temperature: the row between them lies within. Both are `brix`
   * where the row itself is held; null where `brix` is.
   */
  low: number | null
  high: number | null
  /**
   * How the row at this temperature is known: read in the source, between two rows that were read, or recalled;
   * null when nothing was corrected.
   */
  basis: 'read' | 'derived' | 'memory' | null
  /** °C of the rows on both sides, where the row is between two that were read; else null. */
  between: readonly [number, number] | null
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
 * Brings the Brix read on a refractometer WITHOUT temperature compensation at `celsius` to 20 °C.
 * Colder than 20 °C it reads too high. Never use it on a compensating instrument.
 * At a temperature whose row is held, that row, linear between its columns. Between two rows that were read, the two
 * are bounds, since the table falls from row to row, and `brix` is on the straight line between them. Refuses, with
 * the reason, outside 5-30 °C or 10-30 Brix. Throws a RangeError when a number is missing.
 * Source: OIV-MA-AS2-02, table I (OIV Compendium, p. 49), which prints a row for each degree. Its rows at 5, 7, 10,
 * 12, 14 and 16 °C stand here as read, and 20 °C is the definition; no other row was seen. The rows above 20 °C are
 * from memory, and a quadratic through the read rows comes within 0.03 of them.
 */
export function correctForTemperature(reading: number, celsius: number): TemperatureCorrection {
  if (!Number.isFinite(reading) || !Number.isFinite(celsius)) {
    throw new RangeError('correctForTemperature requires a reading and a temperature')
  }
  const none = { between: null, reason: null }
  if (celsius === 20) {
    return { ...none, brix: reading, low: reading, high: reading, correction: 0, basis: 'read' }
  }
  const refuse = (reason: string): TemperatureCorrection => ({
    ...none,
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
  const row = intervalOf(
    ROWS.map(([t]) => t),
    celsius,
  )
  const [colder, cold] = ROWS[row]!
  const [warmer, warm] = ROWS[row + 1]!
  const share = (celsius - colder) / (warmer - colder)
  const correction = held ? inRow(held[1]) : mix(inRow(cold), inRow(warm), share)
  const brix = reading + correction
  if (celsius > LAST_PRINTED_ROW) {
    return {
      ...none,
      brix,
      low: brix - MEMORY_WITHIN,
      high: brix + MEMORY_WITHIN,
      correction,
      basis: 'memory',
    }
  }
  if (held) return { ...none, brix, low: brix, high: brix, correction, basis: 'read' }
  const [low, high] = [reading + inRow(cold), reading + inRow(warm)]
  return { brix, low, high, correction, basis: 'derived', between: [colder, warmer], reason: null }
}
