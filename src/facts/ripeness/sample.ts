import { BRIX_LIMITS, brixFromSpecificGravity } from '../../agronomy/ripening/brix.ts'
import { specificGravityFromBaume, specificGravityFromOechsle } from '../../agronomy/ripening/must-scales.ts'
import { correctForTemperature } from '../../agronomy/ripening/refractometer.ts'
import { tartaricFromSulphuric, titratableAcidity } from '../../agronomy/ripening/titratable-acidity.ts'
import { type MeanInterval, meanInterval } from '../../agronomy/statistics/mean.ts'
import type { Sample } from '../../records/kinds/sample.ts'

/** Figures of a berry sample. */
export interface SampleFacts {
  /** Brix at 20 °C with its 95 % interval, which needs three or more readings; null where `why` gives the reason. */
  brix: MeanInterval | null
  /** Mean Brix as read, before any correction. */
  reading: number | null
  /** Each reading in Brix at 20 °C. */
  readings: number[]
  ph: MeanInterval | null
  /** g/L as tartaric acid. */
  ta: MeanInterval | null
  /** pH at which the titration ended; null where not recorded. */
  endPoint: number | null
  /** g */
  berryWeight: number | null
  /** The uncertainty of the temperature correction, in words; null where it gives one figure. */
  open: string | null
  /** Conversions made, in words. */
  remarks: string[]
  /** Why there is no Brix; null where there is, or where no sugar was measured. */
  why: string | null
}

const known = new WeakMap<Sample, SampleFacts>()

/** Calculates a sample: converts sugar to Brix, corrects for temperature, gives means and 95 % intervals. */
export function readSample(sample: Sample): SampleFacts {
  const before = known.get(sample)
  if (before) return before
  const facts = workedOut(sample)
  known.set(sample, facts)
  return facts
}

function workedOut(sample: Sample): SampleFacts {
  const acid = acidity(sample)
  const none: SampleFacts = {
    brix: null,
    reading: null,
    readings: [],
    ph: sample.ph ? meanInterval(sample.ph) : null,
    ta: acid && meanInterval(acid),
    endPoint: sample.end_point ?? null,
    berryWeight: sample.berry_weight ?? null,
    open: null,
    remarks: [],
    why: null,
  }
  if (sample.fermenting) {
    const why =
      'the juice had begun to ferment: alcohol and gas disturb the reading, so it does not show sugar or acid of the berries'
    return { ...none, ph: null, ta: null, why }
  }
  const typed = asBrix(sample)
  if (!typed) return { ...none, remarks: acidRemarks(sample) }
  const corrected = typed.why === null ? correct(sample, typed.brix) : typed
  if (corrected.why !== null) return { ...none, why: corrected.why }
  return {
    ...none,
    brix: withTable(meanInterval(corrected.brix), corrected.mean),
    reading: meanOf(typed.brix),
    readings: corrected.brix,
    open: corrected.open ?? null,
    remarks: [...typed.remarks, ...corrected.remarks, ...acidRemarks(sample)],
  }
}

interface Read {
  brix: number[]
  /** Bounds of the mean by the correction table, where a correction was made. */
  mean?: { low: number; high: number }
  open?: string | undefined
  remarks: string[]
  why: string | null
}

const read = (brix: number[], remarks: string[] = []): Read => ({ brix, remarks, why: null })
const refused = (why: string): Read => ({ brix: [], remarks: [], why })

/** The sugar of a sample in Brix, from any scale. */
function asBrix(sample: Sample): Read | null {
  if (sample.brix) {
    const high = sample.brix.find((value) => value > BRIX_LIMITS.high)
    return high === undefined
      ? read(sample.brix)
      : refused(`${high} Brix is beyond the ${BRIX_LIMITS.high} that the formulas are meant for`)
  }
  const scales = [
    ['Oechsle', sample.oechsle, specificGravityFromOechsle],
    ['Baumé', sample.baume, specificGravityFromBaume],
    ['specific gravity', sample.density, (value: number) => value],
  ] as const
  for (const [scale, values, gravityOf] of scales) {
    if (!values) continue
    try {
      const brix = values.map((value) => brixFromSpecificGravity(gravityOf(value)))
      return read(brix, [`Brix calculated from ${scale}`])
    } catch (error) {
      if (!(error instanceof RangeError)) throw error
      return refused(`the ${scale} is outside the range of must, 0 to 40 Brix`)
    }
  }
  return null
}

/** Corrects readings of a refractometer without compensation to 20 °C; hydrometer scales stay as read. */
function correct({ brix: typed, temperature, compensated }: Sample, brix: number[]): Read {
  const remark = (why: string) =>
    temperature === undefined || temperature === 20 ? [] : [`read at ${temperature} °C and ${why}`]
  if (!typed) return read(brix, remark('not corrected: the table is one for refractometers'))
  const trusted = 'taken as corrected by the instrument, since `compensated: false` is not written'
  if (compensated !== false) return read(brix, compensated ? [] : remark(trusted))
  if (temperature === undefined)
    return refused('the refractometer does not compensate and no temperature was recorded')
  const steps = brix.map((value) => correctForTemperature(value, temperature))
  const gap = steps.find((step) => step.brix === null)
  if (gap) return refused(`no correction for ${temperature} °C: ${gap.reason}`)
  const [low, high] = [meanOf(steps.map((step) => step.low!)), meanOf(steps.map((step) => step.high!))]
  const open = steps.find((step) => step.low !== step.high)
  const known = open ? `: ${low.toFixed(2)} to ${high.toFixed(2)} Brix${howKnown(open)}` : ''
  const how = `corrected from ${temperature} °C to 20 °C by the OIV table${known}`
  const brixAt20 = steps.map((step) => step.brix!)
  return { ...read(brixAt20, [how]), mean: { low, high }, open: open && how }
}

const meanOf = (values: readonly number[]) => meanInterval(values).mean

/** The interval of a mean, widened by the uncertainty of the temperature correction. */
function withTable(mean: MeanInterval, table: Read['mean']): MeanInterval {
  if (!table || mean.low === null || mean.high === null) return mean
  return { ...mean, low: mean.low + table.low - mean.mean, high: mean.high + table.high - mean.mean }
}

/** How the acid shown was calculated from what was typed. */
function acidRemarks({ titration, ta, ta_as }: Sample): string[] {
  if (titration) return ['acid calculated from the titration, as tartaric']
  return ta && ta_as === 'sulphuric' ? ['acid written as sulphuric, shown as tartaric'] : []
}

/** Titratable acidity in g/L as tartaric acid. */
function acidity(sample: Sample): number[] | null {
  if (sample.titration) return [titratableAcidity(sample.titration)]
  if (!sample.ta) return null
  if (sample.ta_as !== 'sulphuric') return sample.ta
  return sample.ta.map(tartaricFromSulphuric)
}

/** How well a temperature correction is known and what would confirm it; follows "by the OIV table". */
export const howKnown = ({ basis }: Pick<ReturnType<typeof correctForTemperature>, 'basis'>): string =>
  basis === 'memory'
    ? '. This correction is from memory, within 0.03 Brix. For one figure, let the juice come to 20 °C and read again'
    : ''
