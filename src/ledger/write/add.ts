import type { z } from 'zod'
import { SEASONAL, type SeasonKind } from '../../records/kinds.ts'
import { inKilograms } from '../read/containers.ts'
import type { Finding } from '../read/finding.ts'
import { listLedger } from '../read/folder.ts'
import type { Ledger, Seasonal } from '../read/ledger.ts'
import { readEntry } from '../read/read-entry.ts'
import { resolveReferences } from '../read/resolve.ts'
import { wayFor } from '../read/site.ts'
import { placeAt } from '../read/source.ts'
import { readYaml } from '../yaml/read-yaml.ts'

/** A file that is to be created, with one entry. */
interface NewEntry {
  kind: SeasonKind
  season: number
  file: string
  text: string
}

export interface Added {
  /** The ledger as it would be; null where the entry can't be read. The given ledger isn't changed. */
  ledger: Ledger | null
  /** The entry as read, in its place in the new file. */
  record: Seasonal<{ date: string }> | null
  /** Faults of the entry itself: syntax, shape and references. */
  findings: Finding[]
}

/** Any entry of a season, with its place. */
export type AnyEntry = Seasonal<{ date: string }>

/** The ledger without one of its entries. */
export function withoutEntry(ledger: Ledger, kind: SeasonKind, old: AnyEntry): Ledger {
  return { ...ledger, [kind]: (ledger[kind] as AnyEntry[]).filter((entry) => entry !== old) }
}

/** Whether an entry stands on a line of its file. */
export function isOn({ source: { at, node } }: AnyEntry, line: number): boolean {
  const first = placeAt(at, node.start, node.start + 1).line
  const last = placeAt(at, Math.max(node.start, node.end - 1), node.end).line
  return line >= first && line <= last
}

/**
 * Reads an entry as if its file were already in the ledger, and gives its faults.
 * @param path the entry's place in the file's list, where it isn't the whole file
 */
export function withEntry(ledger: Ledger, added: NewEntry, path: readonly number[] = []): Added {
  const { record, findings } = readNew(ledger, added, path)
  if (!record) return { ledger: null, record: null, findings }
  const made = grownBy(ledger, [{ ...added, record }])
  const own = resolveReferences(made, listLedger(ledger.root).standing).filter(
    (finding) => finding.file === added.file && isOn(record, finding.line),
  )
  return { ledger: made, record, findings: own }
}

/** Reads several entries as if their files were already in the ledger; those that can't be read are left out. */
export function withEntries(
  ledger: Ledger,
  added: readonly NewEntry[],
): { ledger: Ledger; findings: Finding[] } {
  const read = added.map((one) => ({ ...one, ...readNew(ledger, one) }))
  const made = grownBy(ledger, read)
  const files = new Set(added.map(({ file }) => file))
  const references = resolveReferences(made, listLedger(ledger.root).standing)
  return {
    ledger: made,
    findings: [
      ...read.flatMap(({ findings }) => findings),
      ...references.filter(({ file }) => files.has(file)),
    ],
  }
}

/** The ledger with more entries, each kind in date order. */
function grownBy(
  ledger: Ledger,
  added: readonly { kind: SeasonKind; season: number; record: AnyEntry | null }[],
): Ledger {
  const made: Ledger = { ...ledger, files: ledger.files + added.length }
  for (const kind of new Set(added.map((one) => one.kind))) {
    const more = added.flatMap((one) => (one.kind === kind ? (one.record ?? []) : []))
    const entries = [...(ledger[kind] as AnyEntry[]), ...more]
    entries.sort((a, b) => (a.date < b.date ? -1 : a.date > b.date ? 1 : 0))
    Object.assign(made, { [kind]: entries })
  }
  made.seasons = [...new Set([...ledger.seasons, ...added.map(({ season }) => season)])].sort((a, b) => a - b)
  return made
}

/** Reads the entry of a file's text, or the one at a place of its list. */
function readNew(ledger: Ledger, { kind, season, file, text }: NewEntry, [place]: readonly number[] = []) {
  const at = { file, text }
  const { node: whole, findings } = readYaml(at)
  if (!whole) return { record: null, findings }
  const node = place !== undefined && whole.kind === 'list' ? whole.items[place]! : whole
  const schema = SEASONAL[kind] as z.ZodType<{ date: string }>
  const read = readEntry(schema, { at, node }, wayFor(text, ledger))
  const weighed = read.record ? inKilograms(kind, read.record, ledger) : read
  const record = weighed.record ? Object.assign(weighed.record, { season }) : null
  return { record, findings: weighed.findings }
}
