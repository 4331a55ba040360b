/** Grams of tartaric acid that carry one equivalent, as the trade counts them (150.09 / 2 is 75.045). */
const TARTARIC = 75

/**
 * Titratable acidity in g/L as tartaric acid, from g/L as sulphuric acid. Both acids give two protons.
 * Source: molar masses of tartaric, 150.09 g/mol, and sulphuric acid, 98.08, AWRI Technical Note TN14.
 */
export function tartaricFromSulphuric(gramsPerLitre: number): number {
  return (gramsPerLitre * 150.09) / 98.08
}

/**
 * Titratable acidity in g/L as tartaric acid: 75 x normality x base / sample.
 * `base` and `sample` in mL, `normality` of the sodium hydroxide in equivalents per litre (usually 0.1).
 * The end point changes the result and must be kept beside it: pH 7 by OIV-MA-AS313-01, pH 8.2 in American and
 * Australian practice, which reads a little higher.
 * Throws a RangeError unless the sample and normality are above 0 and the base is 0 or more.
 * Source: Ribéreau-Gayon et al., Handbook of Enology vol. 1 (1 meq/L = 0.075 g/L tartaric).
 */
export function titratableAcidity({
  base,
  normality,
  sample,
}: {
  base: number
  normality: number
  sample: number
}): number {
  if (!(base >= 0)) throw new RangeError('titratable acidity requires 0 mL of base or more')
  if (!(normality > 0)) throw new RangeError('titratable acidity requires a normality above 0')
  if (!(sample > 0)) throw new RangeError('titratable acidity requires a sample above 0 mL')
  return (TARTARIC * normality * base) / sample
}
