type Acid = 'tartaric' | 'sulphuric' | 'malic' | 'citric' | 'acetic'

/**
 * Grams that carry one equivalent of acid. The trade counts tartaric as 75 (150.09 / 2 = 75.045); the others keep
 * their true ratio to it, so that what is titrated with 75 converts without a seam.
 * Sources: tartaric 150.09 and sulphuric 98.08 g/mol, AWRI Technical Note TN14; malic 134.09, citric 192.12 and
 * acetic 60.05 from memory.
 */
const GRAMS_PER_EQUIVALENT: Record<Acid, number> = {
  tartaric: 75,
  sulphuric: (75 * 98.08) / 150.09,
  malic: (75 * 134.09) / 150.09,
  citric: (75 * 192.12 * 2) / 3 / 150.09,
  acetic: (75 * 60.05 * 2) / 150.09,
}

/** Titratable acidity in g/L expressed as one acid, re-expressed in g/L as another. */
export function convertAcidity(gramsPerLitre: number, { from, to }: { from: Acid; to: Acid }): number {
  return (gramsPerLitre / GRAMS_PER_EQUIVALENT[from]) * GRAMS_PER_EQUIVALENT[to]
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
  return (GRAMS_PER_EQUIVALENT.tartaric * normality * base) / sample
}
