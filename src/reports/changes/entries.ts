import type { Ledger } from '../../ledger/read/ledger.ts'
import { type Node, type Placed, placeOf } from '../../ledger/read/source.ts'
import type { IsoDate } from '../../records/date.ts'
import {
  SEASON_KINDS,
  type SeasonKind,
  SINGULAR,
  STANDING_KINDS,
  type StandingKind,
} from '../../records/kinds.ts'

/** A record of either revision, with the data to compare it by. */
export interface LedgerEntry {
  kind: StandingKind | SeasonKind | 'vineyard'
  /** Id of a standing record; null for entries of a season. */
  id: string | null
  date: IsoDate | null
  blocks: string[]
  season: number | null
  /** The record's content in a normal form: equal for equal records. */
  content: string
  record: Placed<object>
  file: string
}

/** A field of a record: as written, and what was read from it. */
export interface Field {
  text: string
  value: string
}

/**
 * The records of two states of a ledger that may differ: those read from one unchanged file are the same
 * object in both, and left out.
 */
export function entriesApart(before: Ledger | null, after: Ledger): [LedgerEntry[], LedgerEntry[]] {
  if (!before) return [[], recordsOf(after).map(toEntry)]
  const [old, now] = [recordsOf(before), recordsOf(after)]
  const [inOld, inNow] = [old, now].map((list) => new Set(list.map(({ record }) => record)))
  return [
    old.filter(({ record }) => !inNow!.has(record)).map(toEntry),
    now.filter(({ record }) => !inOld!.has(record)).map(toEntry),
  ]
}

type Known = Pick<LedgerEntry, 'kind' | 'record'> &
  Partial<Pick<LedgerEntry, 'id' | 'date' | 'blocks' | 'season'>>

function recordsOf(ledger: Ledger): Known[] {
  const standing = STANDING_KINDS.flatMap((kind) =>
    [...ledger[kind].values()].map((record): Known => ({ kind, record, id: record.id })),
  )
  const seasonal = SEASON_KINDS.flatMap((kind) =>
    ledger[kind].map(
      (record): Known => ({
        kind,
        record,
        date: record.date,
        blocks: 'blocks' in record ? record.blocks : 'block' in record ? [record.block] : [],
        season: record.season,
      }),
    ),
  )
  return [{ kind: 'vineyard', record: ledger.vineyard }, ...standing, ...seasonal]
}

function toEntry(known: Known): LedgerEntry {
  const { kind, record } = known
  const content = `${kind} ${JSON.stringify(inOrder(record))}`
  return { id: null, date: null, blocks: [], season: null, ...known, content, file: record.source.at.file }
}

/** The same data with sorted keys and numbers without conversion noise. */
function inOrder(value: unknown): unknown {
  if (typeof value === 'number') return isShort(value) ? value : Number(value.toPrecision(12))
  if (typeof value !== 'object' || value === null) return value
  if (Array.isArray(value)) return value.map(inOrder)
  const said = value as Record<string, unknown>
  return Object.fromEntries(
    Object.keys(said)
      .sort()
      .map((key) => [key, inOrder(said[key])]),
  )
}

/** Whether a number has no more than the twelve digits that are compared. */
const isShort = (value: number) => Number.isInteger(value) && Math.abs(value) < 1e12

const known = new WeakMap<object, Map<string, Field>>()

/**
 * The fields of a record by their path, like `products.sulphur-80.rate`. Items of a list are named by what they
 * are about and not by their index, so that reordering changes nothing.
 */
export function fieldsOf(entry: LedgerEntry): Map<string, Field> {
  const before = known.get(entry.record)
  if (before) return before
  const fields = new Map<string, Field>()
  const { at, node: whole } = entry.record.source
  const visit = (node: Node, value: unknown, label: string) => {
    if (node.kind === 'map') {
      for (const { key, value: child } of node.entries)
        visit(child, (value as Record<string, unknown> | null)?.[key], label ? `${label}.${key}` : key)
    } else if (node.kind === 'list' && node.items.some((item) => item.kind === 'map')) {
      node.items.forEach((item, index) => {
        const one = Array.isArray(value) ? value[index] : undefined
        visit(item, one, unused(fields, `${label}.${nameOf(one, index)}`))
      })
    } else {
      const text = writtenIn(at.text, node)
      fields.set(label, { text, value: JSON.stringify(inOrder(value)) ?? text })
    }
  }
  visit(whole, entry.record, '')
  if (entry.id !== null) fields.set('id', { text: entry.id, value: entry.id })
  if (entry.season !== null) fields.set('season', { text: String(entry.season), value: String(entry.season) })
  known.set(entry.record, fields)
  return fields
}

/** A value as typed, on one line and without its quotes. */
const writtenIn = (text: string, node: Node) =>
  node.kind === 'scalar' && node.text !== ''
    ? node.text
    : text.slice(node.start, node.end).replace(/\s+/g, ' ').trim()

function nameOf(item: unknown, index: number): string {
  const { product, name, against, from } = (item ?? {}) as Record<string, unknown>
  return String(product ?? name ?? against ?? from ?? index + 1)
}

/** Numbers items that share a name. */
function unused(fields: ReadonlyMap<string, Field>, label: string): string {
  const taken = (one: string) => [...fields.keys()].some((key) => key === one || key.startsWith(`${one}.`))
  let number = 2
  let free = label
  while (taken(free)) free = `${label}#${number++}`
  return free
}

/** What an entry is called: `spray`, `block`, `vineyard`. */
export const nounOf = ({ kind }: LedgerEntry) => (kind === 'vineyard' ? 'vineyard' : SINGULAR[kind])

/** The line on which an entry stands in its file. */
export const lineOf = ({ record }: LedgerEntry) => placeOf(record.source).line

const ALREADY_SAID = new Set(['date', 'block', 'blocks', 'season', 'id', 'note', 'operator', 'who', 'name'])
const MOST_FIELDS = 5

/** A summary of an entry: the doses of a spray, the figures of a sample. */
export function gistOf(entry: LedgerEntry): string {
  const fields = [...fieldsOf(entry)]
  if (entry.kind === 'sprays') {
    const doses = fields.flatMap(([label, { text }]) => {
      const dose = /^products\.(.+)\.(?:rate|amount|concentration)$/.exec(label)
      return dose ? [`${dose[1]} ${text}`] : []
    })
    return doses.join(', ')
  }
  if (entry.id !== null) return fields.find(([label]) => label === 'name')?.[1].text ?? ''
  const rest = fields.filter(([label]) => !ALREADY_SAID.has(label))
  const said = rest.slice(0, MOST_FIELDS).map(([label, { text }]) => `${label.replace(/[._]/g, ' ')} ${text}`)
  return `${said.join(', ')}${rest.length > MOST_FIELDS ? ', ...' : ''}`
}
