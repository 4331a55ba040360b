import { brixFromSpecificGravity, specificGravityFromBrix } from '../../agronomy/ripening/brix.ts'
import {
  baumeFromSpecificGravity,
  kmwFromOechsle,
  oechsleFromSpecificGravity,
  specificGravityFromBaume,
  specificGravityFromOechsle,
} from '../../agronomy/ripening/must-scales.ts'
import {
  type AlcoholMethod,
  type AlcoholRange,
  potentialAlcohol,
  roughAlcohol,
} from '../../agronomy/ripening/potential-alcohol.ts'
import { correctForTemperature } from '../../agronomy/ripening/refractometer.ts'
import { brixAcidRatio, brixPhSquared } from '../../agronomy/ripening/ripeness-index.ts'
import { sugarPerLitre } from '../../agronomy/ripening/sugar-content.ts'
import { CAUTION, makeReport, type Report } from '../../facts/report.ts'
import { howKnown } from '../../facts/ripeness/sample.ts'
import { say } from '../../facts/say.ts'
import type { IsoDate } from '../../records/date.ts'
import type { Quantity } from '../../records/quantity.ts'

interface SugarOptions {
  /** What was read: one scale. */
  reading: { scale: 'brix' | 'oechsle' | 'baume' | 'density'; value: number }
  /** °C of the juice on a refractometer that does not compensate. */
  temperature?: number | undefined
  ph?: number | undefined
  /** g/L as tartaric acid. */
  ta?: number | undefined
}

export interface SugarData {
  reading: SugarOptions['reading']
  /** Brix at 20 °C. Where `brixLow` and `brixHigh` differ, the middle of what the table leaves open. */
  brix: number | null
  /** Brix at 20 °C at the least and at the most, by the rows of the table that are held. */
  brixLow: number | null
  brixHigh: number | null
  specificGravity: number | null
  oechsle: number | null
  baume: number | null
  kmw: number | null
  sugarPerLitre: Quantity | null
  potentialAlcohol: AlcoholRange
  alcoholMethods: Partial<Record<AlcoholMethod, number>>
  /** Half of Brix: very rough. */
  roughAlcohol: number | null
  brixAcidRatio: number | null
  brixPhSquared: number | null
  remarks: string[]
  /** What stands in the way of the figures that are null. */
  missing: string[]
}

/** One reading of must on every scale, with what it means for wine. Needs no ledger. */
export function sugar(options: SugarOptions, asOf: IsoDate): Report<SugarData> {
  return makeReport('sugar', { asOf, season: null }, { data: sugarOf(options), cautions: [CAUTION.estimate] })
}

function sugarOf({ reading, temperature, ph, ta }: SugarOptions): SugarData {
  const { brix, low: brixLow, high: brixHigh, remarks, why } = brixOf(reading, temperature)
  if (brix === null || brixLow === null || brixHigh === null) {
    return {
      reading,
      brix: null,
      brixLow: null,
      brixHigh: null,
      specificGravity: null,
      oechsle: null,
      baume: null,
      kmw: null,
      sugarPerLitre: null,
      potentialAlcohol: { low: null, likely: null, high: null },
      alcoholMethods: {},
      roughAlcohol: null,
      brixAcidRatio: null,
      brixPhSquared: null,
      remarks,
      missing: [`Brix: ${why}`],
    }
  }
  const gravity = specificGravityFromBrix(brix)
  const oechsle = oechsleFromSpecificGravity(gravity)
  const grams = sugarPerLitre(brix)
  const { likely, methods } = potentialAlcohol(brix)
  const missing = [
    grams.value === null ? `sugar in g/L and potential alcohol: ${grams.reason}` : '',
    ta === undefined ? 'sugar to acid: titratable acidity (--ta)' : brix > 0 ? '' : 'sugar to acid: sugar',
    ph === undefined ? 'Brix x pH²: pH (--ph)' : brix > 0 ? '' : 'Brix x pH²: sugar',
  ].filter(Boolean)
  return {
    reading,
    brix,
    brixLow,
    brixHigh,
    specificGravity: gravity,
    oechsle,
    baume: baumeFromSpecificGravity(gravity),
    kmw: kmwFromOechsle(oechsle),
    sugarPerLitre: grams.value === null ? null : { value: grams.value, unit: 'g/L' },
    potentialAlcohol: { low: potentialAlcohol(brixLow).low, likely, high: potentialAlcohol(brixHigh).high },
    alcoholMethods: methods,
    roughAlcohol: roughAlcohol(brix),
    brixAcidRatio: ta === undefined || brix <= 0 ? null : brixAcidRatio(brix, ta),
    brixPhSquared: ph === undefined || brix <= 0 ? null : brixPhSquared(brix, ph),
    remarks: grams.value !== null && grams.reason ? [...remarks, grams.reason] : remarks,
    missing,
  }
}

interface BrixAt20 {
  brix: number | null
  low: number | null
  high: number | null
  remarks: string[]
  why: string | null
}

function brixOf({ scale, value }: SugarOptions['reading'], temperature: number | undefined): BrixAt20 {
  const asRead = (brix: number): BrixAt20 => ({ brix, low: brix, high: brix, remarks: [], why: null })
  if (scale !== 'brix') {
    const gravity =
      scale === 'oechsle'
        ? specificGravityFromOechsle(value)
        : scale === 'baume'
          ? specificGravityFromBaume(value)
          : value
    return asRead(brixFromSpecificGravity(gravity))
  }
  if (temperature === undefined) return asRead(value)
  const step = correctForTemperature(value, temperature)
  const { brix, low, high, correction, reason } = step
  if (brix === null) return { brix, low, high, remarks: [], why: reason }
  const signed = (by: number) => (by === 0 ? '0' : `${by < 0 ? '-' : '+'}${Math.abs(by).toFixed(2)}`)
  const remark = `${value} Brix read at ${say(temperature, '°C')} without compensation: ${signed(correction!)} by the OIV table${howKnown(step)}`
  return { brix, low, high, remarks: [remark], why: null }
}
