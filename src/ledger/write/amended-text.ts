import { isDeepStrictEqual } from 'node:util'
import { addAll } from '../../records/add-all.ts'
import type { ListNode, MapNode, Node } from '../read/source.ts'
import { toPlain } from '../yaml/plain.ts'
import { readYaml } from '../yaml/read-yaml.ts'
import { entryText, type PlainEntry, type PlainValue } from './entry-text.ts'

/** A span of the text and its replacement. */
interface Change {
  from: number
  to: number
  text: string
}

/**
 * The text of a file with some values of one entry changed: other lines, comments and key order stay.
 * @param path to the entry in the file's node: none, or its place in the list
 * @param wanted the entry as it should become
 * @returns null where the change can't be made this way, for instance in a value of several lines
 */
export function amendedText(text: string, path: readonly number[], wanted: PlainEntry): string | null {
  const node = mapIn(text, path)
  if (!node) return null
  const changes = changesOfMap(text, node, wanted)
  if (!changes) return null
  let made = text
  for (const { from, to, text: put } of changes.toSorted((a, b) => b.from - a.from || b.to - a.to))
    made = made.slice(0, from) + put + made.slice(to)
  const back = mapIn(made, path)
  return back && isDeepStrictEqual(plainOf(toPlain(back)), plainOf(wanted)) ? made : null
}

function mapIn(text: string, [at]: readonly number[] = []): MapNode | null {
  const { node: whole } = readYaml({ file: 'entry', text })
  const item = at !== undefined && whole?.kind === 'list' ? whole.items[at] : null
  const node = at === undefined ? whole : item
  return node?.kind === 'map' ? node : null
}

/** Numbers as text for comparison, since `20.0` may be text in one and a number in the other. */
function plainOf(value: unknown): unknown {
  if (Array.isArray(value)) return value.map(plainOf)
  if (value !== null && typeof value === 'object')
    return Object.fromEntries(Object.entries(value).map(([key, inner]) => [key, plainOf(inner)]))
  return typeof value === 'string' && /^-?\d+(?:\.\d+)?$/.test(value) ? Number(value) : value
}

const isSame = (one: unknown, other: unknown) => isDeepStrictEqual(plainOf(one), plainOf(other))

function changesOf(text: string, node: Node, wanted: PlainValue): Change[] | null {
  if (isSame(toPlain(node), wanted)) return []
  const changes =
    node.kind === 'map' && isMap(wanted)
      ? changesOfMap(text, node, wanted)
      : node.kind === 'list' && Array.isArray(wanted)
        ? changesOfList(text, node, wanted)
        : null
  if (changes) return changes
  // The end of a multi-line scalar or block isn't visible to the reader.
  const old = text.slice(node.start, node.end)
  if (old.includes('\n') && !isFlow(text, node)) return null
  return [{ from: node.start, to: closed(text, node), text: inline(wanted) }]
}

/** The end of a value including its closing brace or bracket, which the readers leave out. */
function closed(text: string, { kind, start, end }: Node): number {
  const bracket = text[start] === '{' ? '}' : ']'
  if (kind === 'scalar' || !/[[{]/.test(text[start] ?? '') || text[end - 1] === bracket) return end
  const behind = /^\s*(?:,\s*)?[}\]]/.exec(text.slice(end))
  return end + (behind?.[0].length ?? 0)
}

const isMap = (value: PlainValue): value is PlainEntry =>
  value !== null && typeof value === 'object' && !Array.isArray(value)

const isFlow = (text: string, node: Node) => /[[{"']/.test(text[node.start] ?? '')

function changesOfMap(text: string, node: MapNode, wanted: PlainEntry): Change[] | null {
  const parts = node.entries.map(({ keyStart, value }) => ({ start: keyStart, end: value.end, value }))
  const kept = new Map<number, PlainValue>()
  for (const [place, { key }] of node.entries.entries())
    if (Object.hasOwn(wanted, key)) kept.set(place, wanted[key]!)
  const known = new Set(node.entries.map(({ key }) => key))
  const added = Object.entries(wanted).filter(([key]) => !known.has(key))
  const lines = added.map(([key, value]) => `${key}: ${inline(value)}`)
  return changesWithin(text, { isFlow: text[node.start] === '{', mark: '', parts, kept, added: lines })
}

function changesOfList(text: string, node: ListNode, wanted: readonly PlainValue[]): Change[] | null {
  const parts = node.items.map((value) => ({ start: value.start, end: value.end, value }))
  const places = parts.length === 0 ? null : aligned(node.items, wanted)
  if (!places) return null
  const kept = new Map(places.map((place, at) => [place, wanted[at]!]))
  const added = wanted.slice(places.length).map(inline)
  return changesWithin(text, { isFlow: text[node.start] === '[', mark: '-', parts, kept, added })
}

interface Within {
  /** Whether it stands in braces or brackets. */
  isFlow: boolean
  /** What stands before each part on its line. */
  mark: '' | '-'
  parts: readonly { start: number; end: number; value: Node }[]
  /** What the parts that stay become, by their place. */
  kept: ReadonlyMap<number, PlainValue>
  added: readonly string[]
}

/** The changes to the parts of a map or a list: those that stay, those that go, and those that come behind them. */
function changesWithin(text: string, within: Within): Change[] | null {
  const { isFlow, mark, parts, kept, added } = within
  const changes: Change[] = []
  for (const [place, { value }] of parts.entries()) {
    const change = kept.has(place) ? changesOf(text, value, kept.get(place)!) : taking(text, within, place)
    if (!change) return null
    addAll(changes, change)
  }
  if (added.length === 0) return changes
  const last = parts.at(-1)
  if (!last) return null
  const at = isFlow ? last.end : endOfLine(text, last.end)
  const before = text.slice(startOfLine(text, last.start), last.start)
  if (!isFlow && mark === '-' && before.trim() !== '-') return null
  const lead = mark === '-' ? before.replace(/-\s*$/, '- ') : ' '.repeat(before.length)
  const put = added.map((one) => (isFlow ? `, ${one}` : lineEnd(text) + lead + one))
  return [...changes, { from: at, to: at, text: put.join('') }]
}

/**
 * Removes a part: its line, or in braces or brackets its span with the comma before it, or after it where it comes
 * first.
 */
function taking(text: string, { isFlow, mark, parts, kept }: Within, place: number): Change[] | null {
  const { start, end } = parts[place]!
  if (isFlow) {
    const [first = Infinity] = kept.keys()
    if (first < place) return [{ from: parts[place - 1]!.end, to: end, text: '' }]
    const next = parts[place + 1]
    return next ? [{ from: start, to: next.start, text: '' }] : null
  }
  const from = startOfLine(text, start)
  // The first key of an entry in a list follows its dash.
  if (text.slice(from, start).trim() !== mark) return null
  const to = endOfLine(text, end) + lineEnd(text).length
  return [{ from, to: Math.min(text.length, to), text: '' }]
}

/** Matches wanted values to existing items in order, where some items are left out. */
function aligned(items: readonly Node[], wanted: readonly PlainValue[]): number[] | null {
  const asTheyStand = wanted.length === items.length ? items.map((_, at) => at) : null
  const plain = items.map(toPlain)
  // A comment after a product belongs to that product: another product never takes its line.
  if (asTheyStand && plain.every((one, at) => productOf(one) === productOf(wanted[at]))) return asTheyStand
  const kept: number[] = []
  for (const value of wanted) {
    const next = items.findIndex((_, at) => at > (kept.at(-1) ?? -1) && isOf(plain[at], value))
    if (next < 0) break
    kept.push(next)
  }
  return kept.length > 0 ? kept : asTheyStand
}

/** Whether they are the same product, or equal. */
function isOf(one: unknown, other: PlainValue): boolean {
  return productOf(one) !== undefined ? productOf(one) === productOf(other) : isSame(one, other)
}

const productOf = (value: unknown) => (value as { product?: unknown } | null | undefined)?.product

/** The end of the line at an offset, including its comment. */
function endOfLine(text: string, at: number): number {
  const behind = text[at - 1] === '\n' ? at - 1 : at
  const stop = text.indexOf('\n', behind)
  const end = stop < 0 ? text.length : stop
  return text[end - 1] === '\r' ? end - 1 : end
}

const lineEnd = (text: string) => (text.includes('\r\n') ? '\r\n' : '\n')

const startOfLine = (text: string, at: number) => text.lastIndexOf('\n', at - 1) + 1

/** A value on one line, as written after its key. */
function inline(value: PlainValue): string {
  if (Array.isArray(value)) return `[${value.map(inline).join(', ')}]`
  if (isMap(value)) {
    const parts = Object.entries(value).map(([key, inner]) => `${key}: ${inline(inner)}`)
    return `{ ${parts.join(', ')} }`
  }
  // A comma in plain text would split it in brackets: so it is written as a list of one there.
  const list = entryText({ v: [value] }).trimEnd()
  return list.slice(list.indexOf('[') + 1, -1).trim()
}

/** A key of a record whose value changes: the old text (null where there was none) and the new. */
export interface ChangedValue {
  key: string
  before: string | null
  now: string
}

/**
 * The text of a record with some values replaced and new keys added after the last: all other lines and
 * comments stay.
 * @returns null where a value can't be changed this way, for instance one of several lines.
 */
export function withValues(
  text: string,
  values: PlainEntry,
): { text: string; changes: ChangedValue[] } | null {
  const stood = mapIn(text)
  const made = stood && amendedText(text, [], { ...(toPlain(stood) as PlainEntry), ...values })
  const stands = made && mapIn(made)
  if (!stands) return null
  const changes = Object.keys(values).map((key) => ({
    key,
    before: textOf(text, stood, key),
    now: textOf(made, stands, key)!,
  }))
  return { text: made, changes: changes.filter(({ before, now }) => before !== now) }
}

function textOf(text: string, { entries }: MapNode, key: string): string | null {
  const entry = entries.find((one) => one.key === key)
  return entry ? text.slice(entry.value.start, entry.value.end) : null
}
