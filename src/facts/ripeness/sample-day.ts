import { USUAL_BERRIES } from '../../agronomy/ripening/sample-error.ts'
import type { IsoDate } from '../../records/date.ts'
import { groupedBy } from '../judged.ts'
import { type BlockSample, berriesOf } from './samples.ts'

/** What a sample measures. */
export type Measured = 'brix' | 'ta' | 'ph'

/** One figure of a sampling day. */
export interface SampleDay {
  date: IsoDate
  /** Brix, g/L as tartaric acid, or pH. */
  mean: number
  /** The samples that it is the mean of, each with its share of the berries; and how many they are. */
  samples: { sample: BlockSample; share: number }[]
  of: number
  /** What samples of that day read that are not recorded as taken and read alike, and don't count. */
  aside: number[]
}

/**
 * The one figure that all reports use of each sampling day of a block, oldest first: the mean of all berries, so that
 * each sample counts by its berries. Samples that are not recorded as taken and read alike are not mixed, since they
 * may be of the same juice, or differ by the method. The method of most days counts, so that a change of method is not
 * read as ripening; of as many, that of most berries, else that written last. Common practice, no source.
 *
 * @param samples those of one block in one season
 */
export function sampleDays(samples: readonly BlockSample[], of: Measured): SampleDay[] {
  const measured = samples.filter(({ facts }) => facts[of])
  const methods = [...groupedBy(measured, (sample) => methodOf(sample, of)).values()]
    .toReversed()
    .toSorted((a, b) => byDate(b).size - byDate(a).size || berriesIn(b) - berriesIn(a))
    .map(byDate)
  return [...byDate(measured)].map(([date, all]) => {
    const counted = methods.find((days) => days.has(date))!.get(date)!
    const readingOf = ({ facts }: BlockSample) => facts[of]!.mean
    const shares = counted.map((sample) => ({ sample, share: berriesIn([sample]) / berriesIn(counted) }))
    return {
      date,
      mean: shares.reduce((sum, { sample, share }) => sum + share * readingOf(sample), 0),
      samples: shares,
      of: shares.length,
      aside: all.filter((sample) => !counted.includes(sample)).map(readingOf),
    }
  })
}

/** The samples that count on their days. */
export const countedSamples = (samples: readonly BlockSample[], of: Measured): BlockSample[] =>
  sampleDays(samples, of).flatMap((day) => day.samples.map(({ sample }) => sample))

/** How a day's figure was made, in brackets: ` (mean of 2 samples by their berries)`; empty where one sample was taken. */
export function sampleDayText({ of, aside }: Pick<SampleDay, 'of' | 'aside'>, decimals: number): string {
  const left = aside.map((value) => value.toFixed(decimals)).join(', ')
  const parts = [
    ...(of > 1 ? [`mean of ${of} samples by their berries`] : []),
    ...(left ? [`${left} left out: not recorded as taken and read alike`] : []),
  ]
  return parts.length > 0 ? ` (${parts.join('; ')})` : ''
}

const byDate = (samples: readonly BlockSample[]) => groupedBy(samples, ({ entry }) => entry.date)

const berriesIn = (samples: readonly BlockSample[]) =>
  samples.reduce((sum, sample) => sum + (berriesOf(sample) ?? USUAL_BERRIES), 0)

/** What samples must share to be put together: berries or bunches, the instrument, and the scale or end of titration. */
function methodOf({ entry }: BlockSample, of: Measured): string {
  const kind = entry.of === 'bunch' || entry.of === 'vine' ? entry.of : 'berries'
  const scale = (['brix', 'oechsle', 'baume', 'density'] as const).find((key) => entry[key] !== undefined)
  const how = { brix: scale, ta: entry.end_point, ph: undefined }[of]
  return JSON.stringify([kind, entry.instrument?.trim().toLowerCase(), how])
}
