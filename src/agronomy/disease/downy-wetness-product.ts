/** °C x h from which zoospores are taken to infect. */
const DOWNY_WETNESS_PRODUCTS = {
  /** ADVID, Portugal (read). */
  advid: 45,
  /** The older German figure (from memory). */
  german: 50,
  /** Rossi et al. 2008, as read in public research codes. */
  rossi: 60,
} as const

/**
 * Wet hours times mean °C while wet, and whether it reaches the threshold, ADVID's 45 unless another is given.
 * Throws a RangeError for wet hours below 0.
 */
export function downyWetnessProduct(
  wetHours: number,
  temperature: number,
  threshold: number = DOWNY_WETNESS_PRODUCTS.advid,
): { product: number; infection: boolean } {
  if (!(wetHours >= 0))
    throw new RangeError(`downyWetnessProduct requires wet hours of 0 or more, got ${wetHours}`)
  const product = wetHours * temperature
  return { product, infection: product >= threshold - 1e-9 }
}
