/** Bounds that keep every product and quotient of a few figures finite; nothing measured lies outside. */
const SMALLEST = 1e-12
const LARGEST = 1e15

/**
 * Refuses figures that are not positive, so that no formula after it can give NaN, Infinity or a negative amount.
 * @throws RangeError naming the first figure that is not a number from 1e-12 to 1e15
 */
export function requirePositive(figures: Record<string, number>): void {
  for (const name in figures) {
    const value = figures[name]!
    if (!(value >= SMALLEST && value <= LARGEST))
      throw new RangeError(`requires a positive ${name}, got ${value}`)
  }
}

/**
 * The same for figures that may be zero.
 * @throws RangeError naming the first figure that is not a number from 0 to 1e15
 */
export function requireNotNegative(figures: Record<string, number>): void {
  for (const name in figures) {
    const value = figures[name]!
    if (!(value >= 0 && value <= LARGEST)) throw new RangeError(`requires ${name} of 0 or more, got ${value}`)
  }
}

/**
 * The same for shares.
 * @throws RangeError naming the first figure that is not a number from 0 to 1
 */
export function requireShare(figures: Record<string, number>): void {
  for (const name in figures) {
    const value = figures[name]!
    if (!(value >= 0 && value <= 1)) throw new RangeError(`requires ${name} from 0 to 1, got ${value}`)
  }
}
