import type { Ledger, SampleEntry } from '../ledger/ledger.ts'
import type { IsoDate } from '../records/date.ts'
import { readSample, type SampleFacts } from '../rules/facts/sample.ts'

export interface BlockSample {
  entry: SampleEntry
  facts: SampleFacts
}

/** The samples of a block in a season up to a day, oldest first, with what they come to. */
export function samplesOf(
  ledger: Ledger,
  of: { block: string; season: number; asOf: IsoDate },
): BlockSample[] {
  return ledger.samples
    .filter((entry) => entry.block === of.block && entry.season === of.season && entry.date <= of.asOf)
    .map((entry) => ({ entry, facts: readSample(entry) }))
}

/** Mean Brix of each sampling day, oldest first. */
export function brixByDay(samples: readonly BlockSample[]): { date: IsoDate; brix: number }[] {
  const days = new Map<IsoDate, number[]>()
  for (const { entry, facts } of samples) {
    if (facts.brix) days.set(entry.date, [...(days.get(entry.date) ?? []), facts.brix.mean])
  }
  return [...days].map(([date, values]) => ({
    date,
    brix: values.reduce((sum, value) => sum + value, 0) / values.length,
  }))
}
