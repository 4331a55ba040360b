/** Brix (g sucrose in 100 g at 20 °C) for which the closed form below is meant. */
export const BRIX_LIMITS = { low: 0, high: 40 }

function within(value: number, { low, high, name }: { low: number; high: number; name: string }): void {
  if (!(value >= low && value <= high)) {
    throw new RangeError(`${name} must lie between ${low} and ${high}`)
  }
}

/**
 * Specific gravity 20/20 °C, as a hydrometer in air shows it, of a sugar solution of so many Brix.
 * SG = 1 + B / (258.6 - 227.1 B / 258.2): a folk formula without a named author, stated for 0 to about
 * 40 Brix. Against the CRC sucrose table it is at most 0.00016 too high, most of which is buoyancy in air.
 * Throws a RangeError outside 0-40 Brix.
 */
export function specificGravityFromBrix(brix: number): number {
  within(brix, { ...BRIX_LIMITS, name: 'Brix' })
  return 1 + brix / (258.6 - (227.1 * brix) / 258.2)
}

/**
 * Brix from specific gravity 20/20 °C: the exact inverse of specificGravityFromBrix.
 * Throws a RangeError outside 1 to 1.179 (0-40 Brix).
 */
export function brixFromSpecificGravity(specificGravity: number): number {
  within(specificGravity, {
    low: 1,
    high: specificGravityFromBrix(BRIX_LIMITS.high),
    name: 'specific gravity',
  })
  const above = specificGravity - 1
  return (258.6 * above) / (1 + (227.1 / 258.2) * above)
}
