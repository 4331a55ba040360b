import { brixFromSpecificGravity, specificGravityFromBrix } from '../../agronomy/ripening/brix.ts'
import {
  baumeFromSpecificGravity,
  kmwFromOechsle,
  oechsleFromSpecificGravity,
  specificGravityFromBaume,
  specificGravityFromOechsle,
} from '../../agronomy/ripening/must-scales.ts'
import { potentialAlcohol, roughAlcohol } from '../../agronomy/ripening/potential-alcohol.ts'
import { correctForTemperature } from '../../agronomy/ripening/refractometer.ts'
import { brixAcidRatio, brixPhSquared } from '../../agronomy/ripening/ripeness-index.ts'
import { sugarPerLitre } from '../../agronomy/ripening/sugar-content.ts'
import { CAUTION, makeReport } from '../../facts/report.ts'
import { howKnown } from '../../facts/ripeness/sample.ts'
import { figureText } from '../../facts/sentences.ts'
import type { IsoDate } from '../../records/date.ts'

interface SugarOptions {
  /** What was read: one scale. */
  reading: { scale: 'brix' | 'oechsle' | 'baume' | 'density'; value: number }
  /** °C of the juice on a refractometer that does not compensate. */
  temperature?: number | undefined
  ph?: number | undefined
  /** g/L as tartaric acid. */
  ta?: number | undefined
}

export type SugarData = ReturnType<typeof sugarOf>

/** One reading of must on every scale, with what it means for wine. Needs no ledger. */
export function sugar(options: SugarOptions, asOf: IsoDate) {
  return makeReport('sugar', { asOf, season: null }, { data: sugarOf(options), cautions: [CAUTION.estimate] })
}

function sugarOf({ reading, temperature, ph, ta }: SugarOptions) {
  const { brix, low: brixLow, high: brixHigh, remarks, why } = brixOf(reading, temperature)
  const known = <T>(of: (brix: number) => T): T | null => (brix === null ? null : of(brix))
  const gravity = known(specificGravityFromBrix)
  const oechsle = gravity === null ? null : oechsleFromSpecificGravity(gravity)
  const grams = known(sugarPerLitre)
  const alcohol = known(potentialAlcohol)
  const sweet = brix !== null && brix > 0 ? brix : null
  const missing =
    brix === null
      ? [`Brix: ${why}`]
      : [
          grams?.value === null ? `sugar in g/L and potential alcohol: ${grams.reason}` : '',
          ta === undefined ? 'sugar to acid: titratable acidity (--ta)' : sweet ? '' : 'sugar to acid: sugar',
          ph === undefined ? 'Brix x pH²: pH (--ph)' : sweet ? '' : 'Brix x pH²: sugar',
        ].filter(Boolean)
  return {
    reading,
    /** Brix at 20 °C. Where `brixLow` and `brixHigh` differ, the middle of what the table leaves open. */
    brix,
    /** Brix at 20 °C at the least and at the most, by the rows of the table that are held. */
    brixLow,
    brixHigh,
    specificGravity: gravity,
    oechsle,
    baume: gravity === null ? null : baumeFromSpecificGravity(gravity),
    kmw: oechsle === null ? null : kmwFromOechsle(oechsle),
    sugarPerLitre: grams?.value == null ? null : { value: grams.value, unit: 'g/L' },
    potentialAlcohol: {
      low: brixLow === null ? null : potentialAlcohol(brixLow).low,
      likely: alcohol?.likely ?? null,
      high: brixHigh === null ? null : potentialAlcohol(brixHigh).high,
    },
    alcoholMethods: alcohol?.methods ?? {},
    /** Half of Brix: very rough. */
    roughAlcohol: known(roughAlcohol),
    brixAcidRatio: ta === undefined || sweet === null ? null : brixAcidRatio(sweet, ta),
    brixPhSquared: ph === undefined || sweet === null ? null : brixPhSquared(sweet, ph),
    remarks: grams?.value != null && grams.reason ? [...remarks, grams.reason] : remarks,
    /** What stands in the way of the figures that are null. */
    missing,
  }
}

/** Specific gravity by scale. */
const GRAVITY = {
  oechsle: specificGravityFromOechsle,
  baume: specificGravityFromBaume,
  density: (value: number) => value,
}

function brixOf({ scale, value }: SugarOptions['reading'], temperature: number | undefined) {
  if (scale !== 'brix' || temperature === undefined) {
    const brix = scale === 'brix' ? value : brixFromSpecificGravity(GRAVITY[scale](value))
    return { brix, low: brix, high: brix, remarks: [], why: null }
  }
  const step = correctForTemperature(value, temperature)
  const { brix, low, high, correction, reason } = step
  if (brix === null) return { brix, low, high, remarks: [], why: reason }
  const signed = (by: number) => (by === 0 ? '0' : `${by < 0 ? '-' : '+'}${Math.abs(by).toFixed(2)}`)
  const remark = `${value} Brix read at ${figureText(temperature, '°C')} without compensation: ${signed(correction!)} by the OIV table${howKnown(step)}`
  return { brix, low, high, remarks: [remark], why: null }
}
