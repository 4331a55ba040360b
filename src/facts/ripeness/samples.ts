import type { MeanInterval } from '../../agronomy/statistics/mean.ts'
import type { Ledger, SampleEntry } from '../../ledger/read/ledger.ts'
import type { IsoDate } from '../../records/date.ts'
import { readSample, type SampleFacts } from './sample.ts'

export interface BlockSample {
  entry: SampleEntry
  facts: SampleFacts
}

/** The samples of a block in a season up to a day, oldest first, with their figures. */
export function samplesOf(
  ledger: Ledger,
  of: { block: string; season: number; asOf: IsoDate },
): BlockSample[] {
  return ledger.samples
    .filter((entry) => entry.block === of.block && entry.season === of.season && entry.date <= of.asOf)
    .map((entry) => ({ entry, facts: readSample(entry) }))
}

/** The samples of one day together. */
interface SampledDay {
  date: IsoDate
  brix: number
}

/** Mean Brix of each sampling day, oldest first. */
export function brixByDay(samples: readonly BlockSample[]): SampledDay[] {
  const days = new Map<IsoDate, MeanInterval[]>()
  for (const { entry, facts } of samples)
    if (facts.brix) days.set(entry.date, [...(days.get(entry.date) ?? []), facts.brix])
  return [...days].map(([date, same]) => ({
    date,
    brix: same.reduce((sum, { mean }) => sum + mean, 0) / same.length,
  }))
}
