import type { Ledger, SampleEntry } from '../../ledger/read/ledger.ts'
import type { IsoDate } from '../../records/date.ts'
import { type BlockSeason, entriesOf } from '../block-entries.ts'
import { groupedBy } from '../judged.ts'
import { readSample, type SampleFacts } from './sample.ts'

export interface BlockSample {
  entry: SampleEntry
  facts: SampleFacts
}

/** The samples of a block in a season up to a day, oldest first, with their figures. */
export const samplesOf = (ledger: Ledger, of: BlockSeason): BlockSample[] =>
  entriesOf(ledger.samples, of).map((entry) => ({ entry, facts: readSample(entry) }))

/** Mean Brix of each sampling day, oldest first. */
export function brixByDay(samples: readonly BlockSample[]): { date: IsoDate; brix: number }[] {
  const measured = samples.filter(({ facts }) => facts.brix)
  return [...groupedBy(measured, ({ entry }) => entry.date)].map(([date, same]) => ({
    date,
    brix: same.reduce((sum, { facts }) => sum + facts.brix!.mean, 0) / same.length,
  }))
}
