import type { Ledger, SampleEntry } from '../../ledger/read/ledger.ts'
import { type BlockSeason, entriesOf } from '../block-entries.ts'
import { readSample, type SampleFacts } from './sample.ts'

export interface BlockSample {
  entry: SampleEntry
  facts: SampleFacts
}

/** The samples of a block in a season up to a day, oldest first, with their figures. */
export const samplesOf = (ledger: Ledger, of: BlockSeason): BlockSample[] =>
  entriesOf(ledger.samples, of).map((entry) => ({ entry, facts: readSample(entry) }))

/** Berries in a sample: as written, or one for each reading of a berry. */
export function berriesOf({ entry, facts }: BlockSample): number | undefined {
  return entry.berries ?? (entry.of === 'berry' ? facts.readings.length : undefined)
}
