import type { Reading } from '../../agronomy/ripening/ripening-model.ts'
import { SUGAR, VERAISON } from '../../agronomy/ripening/ripening-prior.ts'
import { sampleVariance } from '../../agronomy/ripening/sample-error.ts'
import { dayOf } from '../../records/date.ts'
import { countedSamples } from '../ripeness/sample-day.ts'
import { type BlockSample, berriesOf } from '../ripeness/samples.ts'
import { type HalfColour, NORMAL_90 } from './veraison.ts'

/** Number of samples from which 50 % veraison is no longer used. Own choice, no source. */
const ENOUGH_SAMPLES = 2
/**
 * °Brix below which not all berries are ripening yet, so that the mean's rise says little about the later rate. Own
 * choice, no source.
 */
const UNDER_WAY = 10

/**
 * The sugar of a season as readings of the block's mean, by day: its samples, and 50 % veraison where they are few;
 * starting with the last one taken before ripening was well under way.
 */
export function sugarReadings(
  samples: readonly BlockSample[],
  { halfColour, bias = 0 }: { halfColour: HalfColour | null; bias?: number },
): Reading[] {
  const sampled = countedSamples(samples, 'brix').map((sample): Reading => {
    const brix = sample.facts.brix!
    const readings = brix.sd === null ? undefined : { sd: brix.sd, n: brix.n }
    const variance = sampleVariance({ berries: berriesOf(sample), readings }, SUGAR.within)
    return { day: dayOf(sample.entry.date), value: brix.mean + bias, variance, sampled: true }
  })
  const coloured = halfColour && sampled.length < ENOUGH_SAMPLES ? [colourReading(halfColour)] : []
  const readings = [...coloured, ...sampled].sort((a, b) => a.day - b.day)
  const underWay = readings.findLastIndex(({ value }) => value < UNDER_WAY)
  return readings.slice(Math.max(0, underWay))
}

/**
 * The first sample up to the day of 50 % veraison as noted that is clearly riper than berries are then. A noted stage was
 * reached by its day, maybe long before, so that the sample outweighs it; null where none contradicts.
 */
export function riperBefore(samples: readonly BlockSample[], halfColour: HalfColour): BlockSample | null {
  const { value, variance } = colourReading(halfColour)
  const most = value + NORMAL_90 * Math.sqrt(variance)
  const isRiper = ({ entry, facts }: BlockSample) =>
    dayOf(entry.date) <= halfColour.day && facts.brix!.mean > most
  return countedSamples(samples, 'brix').find(isRiper) ?? null
}

/** 50 % veraison as a reading of sugar with a large error. */
export function colourReading({ day, within }: HalfColour): Reading {
  const variance = VERAISON.spread ** 2 + ((VERAISON.perDay * within) / NORMAL_90) ** 2
  return { day: Math.round(day), value: VERAISON.brix, variance, sampled: false }
}

/** Acid as -ln(g/L), or pH, of a season as readings of the block's mean. */
export function acidReadings(samples: readonly BlockSample[], of: 'ta' | 'ph', within: number): Reading[] {
  return countedSamples(samples, of).map((sample): Reading => {
    const { mean } = sample.facts[of]!
    const value = of === 'ta' ? -Math.log(mean) : mean
    const variance = sampleVariance({ berries: berriesOf(sample) }, within)
    return { day: dayOf(sample.entry.date), value, variance, sampled: true }
  })
}
