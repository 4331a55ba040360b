/**
 * Degrees Oechsle from specific gravity 20/20 °C: the thousandths above water.
 * Source: definition, as in German wine glossaries; the historic scale was set at 17.5 °C.
 */
export function oechsleFromSpecificGravity(specificGravity: number): number {
  return (specificGravity - 1) * 1000
}

/** Specific gravity 20/20 °C from degrees Oechsle. */
export function specificGravityFromOechsle(oechsle: number): number {
  return 1 + oechsle / 1000
}

/**
 * Degrees Baumé (liquids heavier than water) from specific gravity 20/20 °C: 145 - 145/SG.
 * Throws a RangeError when the specific gravity is not above 0.
 * Source: enologia.blog, d20/20 = 145/(145 - Be); at 15/15 °C the modulus would be 144.32.
 */
export function baumeFromSpecificGravity(specificGravity: number): number {
  if (!(specificGravity > 0)) throw new RangeError('Baumé requires a specific gravity above 0')
  return 145 - 145 / specificGravity
}

/** Specific gravity 20/20 °C from degrees Baumé. Throws a RangeError from 145 up. */
export function specificGravityFromBaume(baume: number): number {
  if (!(baume < 145)) throw new RangeError('Baumé must lie below 145')
  return 145 / (145 - baume)
}

/**
 * Degrees KMW (Klosterneuburg, also Babo) from degrees Oechsle, the inverse of Oechsle = KMW x (4.54 + 0.022 KMW).
 * Throws a RangeError for negative Oechsle.
 * Source: Ambrosi 1994, Wein von A bis Z, second-hand, as cited by lebensmittellexikon.de.
 */
export function kmwFromOechsle(oechsle: number): number {
  if (!(oechsle >= 0)) throw new RangeError('KMW requires 0 Oechsle or more')
  return (-4.54 + Math.sqrt(4.54 ** 2 + 4 * 0.022 * oechsle)) / 0.044
}
