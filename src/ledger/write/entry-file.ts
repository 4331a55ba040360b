import type { SeasonKind } from '../../records/kind-names.ts'
import type { Ledger } from '../read/ledger.ts'
import type { Source } from '../read/source.ts'
import type { PlainEntry } from './entry-text.ts'

interface Placing {
  kind: SeasonKind
  season: number
  ledger: Ledger
}

/** The folder of a kind of entry in a season, relative to the ledger. */
export function folderOf(kind: SeasonKind, season: number): string {
  return `seasons/${season}/${kind}`
}

const LONGEST_STEM = 80
/** The file name of an entry: its date and its blocks, or their number where the name would be long. */
export function stemOf(entry: PlainEntry, ledger: Ledger): string {
  const ids = [entry.blocks ?? entry.block ?? []].flat().map(String)
  if (ids.length === 0) return String(entry.date)
  const every = ids.length > 2 && ids.length === ledger.blocks.size
  const joined = `${entry.date}-${ids.join('-')}`
  if (every) return `${entry.date}-all-blocks`
  return joined.length <= LONGEST_STEM ? joined : `${entry.date}-${ids.length}-blocks`
}

/**
 * The file that an entry will most likely go into: its name, or its name with the first number that
 * no entry of its kind has. So its findings are never mistaken for those of another entry of that name.
 */
export function freeFile(entry: PlainEntry, { kind, season, ledger }: Placing): string {
  const taken = new Set((ledger[kind] as readonly { source: Source }[]).map(({ source }) => source.at.file))
  const wanted = `${folderOf(kind, season)}/${stemOf(entry, ledger)}`
  let file = `${wanted}.yaml`
  for (let number = 2; taken.has(file); number += 1) file = `${wanted}-${number}.yaml`
  return file
}
