import type { Block } from '../../records/kinds/block.ts'
import type { Product } from '../../records/kinds/product.ts'
import type { Sprayer } from '../../records/kinds/sprayer.ts'
import type { Variety } from '../../records/kinds/variety.ts'
import type { Vineyard } from '../../records/kinds/vineyard.ts'
import type { RecordOf, SeasonKind, WeighedPick } from '../../records/kinds.ts'
import type { LedgerFiles } from './files.ts'
import type { Finding } from './finding.ts'
import type { Placed } from './source.ts'

/** A record of its own file, whose file name is its id. */
export type Named<T> = Placed<T> & { readonly id: string }

/** An entry of a season, which is given by its folder. */
export type Seasonal<T> = Placed<T> & { readonly season: number }

export type SeasonRecords = { [K in SeasonKind]: Seasonal<K extends 'picks' ? WeighedPick : RecordOf<K>>[] }

export type SprayEntry = SeasonRecords['sprays'][number]
export type ScoutingEntry = SeasonRecords['scouting'][number]
export type SampleEntry = SeasonRecords['samples'][number]
export type StageEntry = SeasonRecords['stages'][number]
export type CropEntry = SeasonRecords['crop'][number]
export type PickEntry = SeasonRecords['picks'][number]
export type WorkEntry = SeasonRecords['work'][number]

/** A ledger as read: its records by id and by kind, oldest first, and the faults in how they are written. */
export interface Ledger extends SeasonRecords {
  root: string
  /** Where its files are read from. */
  reader: LedgerFiles
  vineyard: Placed<Vineyard>
  /** The units asked for on the command line, used for output instead of the site's. */
  saidIn?: Vineyard['units']
  blocks: Map<string, Named<Block>>
  varieties: Map<string, Named<Variety>>
  products: Map<string, Named<Product>>
  sprayers: Map<string, Named<Sprayer>>
  /** Seasons that have a folder, oldest first. */
  seasons: number[]
  /** Weather station files by season, relative to the ledger; read on demand (`weather.ts`). */
  stations: Map<number, string>
  /** Faults of syntax, shape and reference; where one is an error, records are left out and no report may go on. */
  findings: Finding[]
  /** Files that were read. */
  files: number
}

/** Which seasons to read of each kind of record: the requested seasons, or all up to the last of them. */
export interface Need {
  seasons: readonly number[] | 'all'
  kinds?: readonly SeasonKind[]
  /** Kinds also read for earlier seasons. */
  history?: readonly SeasonKind[]
  /** The first season of history to read, from the standing records; default: the very first. */
  from?: ((ledger: Ledger) => number) | undefined
}

/** Whether the records of a kind in a season are needed; `from` is the first season of history. */
export function isNeeded(
  { seasons, kinds, history = [] }: Need,
  { kind, season, from }: { kind: SeasonKind; season: number; from: number },
): boolean {
  const isUpTo = seasons === 'all' || seasons.some((one) => season <= one)
  // Any report may need the weather of seasons up to its own.
  if (kind === 'weather') return isUpTo
  const isAsked = !kinds || kinds.includes(kind)
  if (seasons === 'all') return isAsked || history.includes(kind)
  return (isAsked && seasons.includes(season)) || (history.includes(kind) && season >= from && isUpTo)
}
