import { specificGravityFromBrix } from './brix.ts'
import { oechsleFromSpecificGravity } from './must-scales.ts'

/** Potential alcohol (% vol) for each g/L of sugar. Source: OIV-OENO 466-2012. */
const ALCOHOL_PER_GRAM = 0.05943

/** Brix for which the EU line is stated. */
const EU_LINE_LIMITS = { low: 15, high: 25 }

interface SugarPerLitre {
  /** g of fermentable sugar in a litre of must; null where no line gives any. */
  value: number | null
  method: 'eu-line' | 'oechsle-line'
  /** True when the method is used within the range it is stated for. */
  inRange: boolean
  reason: string | null
}

/**
 * Potential alcohol (% vol) by the straight line through the OIV refractometer table: 0.6757 Brix - 2.0839.
 * Stated for 15-25 Brix; the caller minds the range.
 * Source: line to OIV-MA-AS2-02, table II, as given by a refractometer maker's manual and html.pdfcookie.com.
 */
export function euAlcoholLine(brix: number): number {
  return 0.6757 * brix - 2.0839
}

/** Sugar in g/L behind euAlcoholLine, by 0.05943 % vol per g/L. */
function euSugarLine(brix: number): number {
  return euAlcoholLine(brix) / ALCOHOL_PER_GRAM
}

/**
 * Sugar in g/L by the German line 2.66 Oechsle - 30.
 * Source: refractometer maker's table; the table of wein-selbermachen.net (50-100 Oechsle) agrees to rounding.
 */
export function oechsleSugarLine(oechsle: number): number {
  return 2.66 * oechsle - 30
}

/**
 * Fermentable sugar of must in g/L, unfermented, from Brix.
 * Between 15 and 25 Brix the EU line. Outside it that line is not stated to hold, and the German Oechsle line
 * is used instead and named: it was published on its own, its table starts at 50 Oechsle (12.4 Brix), its trade
 * use runs to 150, and the two meet within 3 g/L at both ends without the figure ever falling as Brix rises.
 * Null below about 3 Brix, where the line gives nothing. Throws a RangeError outside 0-40 Brix.
 */
export function sugarPerLitre(brix: number): SugarPerLitre {
  const oechsle = oechsleFromSpecificGravity(specificGravityFromBrix(brix))
  if (brix >= EU_LINE_LIMITS.low && brix <= EU_LINE_LIMITS.high) {
    return { value: euSugarLine(brix), method: 'eu-line', inRange: true, reason: null }
  }
  const sugar = oechsleSugarLine(oechsle)
  const value = sugar > 0 ? sugar : null
  const reason =
    value === null
      ? 'too little sugar for any published line'
      : `${brix < EU_LINE_LIMITS.low ? 'below 15' : 'above 25'} Brix the EU line is not stated to hold; the German Oechsle line is used`
  return { value, method: 'oechsle-line', inRange: false, reason }
}
