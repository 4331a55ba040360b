import { highest, lowest } from '../statistics/extremes.ts'
import { specificGravityFromBrix } from './brix.ts'
import { oechsleFromSpecificGravity } from './must-scales.ts'
import { euAlcoholLine, oechsleSugarLine, sugarPerLitre } from './sugar-content.ts'

type AlcoholMethod = 'eu-line' | 'seventeen-grams' | 'oechsle-line' | 'brix-0.55' | 'brix-0.60'

interface PotentialAlcohol {
  /** % vol; all three null where there is too little sugar for any line. */
  low: number | null
  likely: number | null
  high: number | null
  /** % vol by each published method. */
  methods: Partial<Record<AlcoholMethod, number>>
  reason: string | null
}

/** Potential alcohol (% vol) by the German line 0.059 x (2.66 Oechsle - 30). Source: refractometer maker. */
function alcoholFromOechsle(oechsle: number): number {
  return 0.059 * oechsleSugarLine(oechsle)
}

/** Very rough: half of Brix, in % vol. It is a mass yield taken for a volume, and 1-2 % vol too low. */
export function roughAlcohol(brix: number): number {
  return brix / 2
}

/**
 * Potential alcohol (% vol, all sugar fermented) of must at so many Brix: the range over the published methods.
 * `likely` is the EU line within 15-25 Brix and the German Oechsle line outside, as sugarPerLitre does.
 * `seventeen-grams` is the custom of France (glossary of the Bordeaux wine council); the law there counts 16.83 g.
 * 0.55 and 0.60 of Brix are common practice (Cox, From Vines to Wines, gives 0.56).
 * Throws a RangeError outside 0-40 Brix.
 */
export function potentialAlcohol(brix: number): PotentialAlcohol {
  const sugar = sugarPerLitre(brix)
  if (sugar.value === null) return { low: null, likely: null, high: null, methods: {}, reason: sugar.reason }
  const german = alcoholFromOechsle(oechsleFromSpecificGravity(specificGravityFromBrix(brix)))
  const methods: Partial<Record<AlcoholMethod, number>> = {
    'seventeen-grams': sugar.value / 17,
    'oechsle-line': german,
    'brix-0.55': 0.55 * brix,
    'brix-0.60': 0.6 * brix,
  }
  if (sugar.inRange) methods['eu-line'] = euAlcoholLine(brix)
  const values = Object.values(methods)
  return {
    low: lowest(values),
    likely: methods['eu-line'] ?? german,
    high: highest(values),
    methods,
    reason: sugar.reason,
  }
}
