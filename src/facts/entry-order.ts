import type { Ledger, Named } from '../ledger/read/ledger.ts'
import type { Block } from '../records/kinds/block.ts'
import type { SeasonKind } from '../records/kinds.ts'

/**
 * The fields of each kind of entry in the order a grower thinks of them: `note` asks in this order, and a printed sheet
 * lists them in it.
 */
export const FIELD_ORDER: Record<SeasonKind, readonly string[]> = {
  sprays: ['date', 'time', 'block', 'part', 'sprayer', 'water', 'product', 'weather', 'operator', 'note'],
  scouting: ['date', 'block', 'looked-at', 'found', 'note'],
  samples: ['date', 'block', 'berries', 'brix', 'ph', 'ta', 'note'],
  stages: ['date', 'block', 'stage', 'note'],
  crop: ['date', 'block', 'at', 'bunches-per-vine', 'bunch-weight', 'note'],
  picks: ['date', 'block', 'weight', 'people', 'hours', 'brix', 'note'],
  work: ['date', 'block', 'job', 'hours', 'people', 'note'],
  weather: ['date', 'low', 'high', 'rain', 'note'],
}

/** The blocks in the order that `note` and the printed sheets use. */
export const blocksInOrder = ({ blocks }: Pick<Ledger, 'blocks'>): Named<Block>[] => [...blocks.values()]
