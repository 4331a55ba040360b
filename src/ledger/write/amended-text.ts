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
  const node = nodeOf(text, path)
  if (node?.kind !== 'map') return null
  const changes = changesOfMap(text, node, wanted)
  if (!changes) return null
  let made = text
  for (const { from, to, text: put } of changes.toSorted((a, b) => b.from - a.from || b.to - a.to))
    made = made.slice(0, from) + put + made.slice(to)
  const back = nodeOf(made, path)
  return back && isDeepStrictEqual(plainOf(toPlain(back)), plainOf(wanted)) ? made : null
}

function nodeOf(text: string, path: readonly number[]): Node | null {
  const { node } = readYaml({ file: 'entry', text })
  if (!node) return null
  const [at] = path
  if (at === undefined) return node
  return node.kind === 'list' ? (node.items[at] ?? null) : null
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
  if (node.kind === 'map' && isMap(wanted)) {
    const changes = changesOfMap(text, node, wanted)
    if (changes) return changes
  }
  if (node.kind === 'list' && Array.isArray(wanted)) {
    const changes = changesOfList(text, node, wanted)
    if (changes) return changes
  }
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
  const changes: Change[] = []
  const firstKept = node.entries.findIndex(({ key }) => Object.hasOwn(wanted, key))
  for (const [place, { key, value }] of node.entries.entries()) {
    const change = Object.hasOwn(wanted, key)
      ? changesOf(text, value, wanted[key]!)
      : taking(text, node, { place, first: firstKept })
    if (!change) return null
    addAll(changes, change)
  }
  const known = new Set(node.entries.map(({ key }) => key))
  const added = Object.entries(wanted).filter(([key]) => !known.has(key))
  if (added.length === 0) return changes
  const last = node.entries.at(-1)
  if (!last) return null
  if (text[node.start] === '{') {
    const at = last.value.end
    changes.push({
      from: at,
      to: at,
      text: added.map(([key, value]) => `, ${key}: ${inline(value)}`).join(''),
    })
    return changes
  }
  const end = endOfLine(text, last.value.end)
  const indent = ' '.repeat(columnOf(text, last.keyStart))
  const lines = added.map(([key, value]) => `${lineEnd(text)}${indent}${key}: ${inline(value)}`)
  changes.push({ from: end, to: end, text: lines.join('') })
  return changes
}

function changesOfList(text: string, node: ListNode, wanted: readonly PlainValue[]): Change[] | null {
  const { items } = node
  if (items.length === 0) return null
  const kept = aligned(items, wanted)
  if (!kept) return null
  const changes: Change[] = []
  for (const [at, item] of items.entries()) {
    const place = kept.indexOf(at)
    const change =
      place < 0
        ? takingItem(text, node, { place: at, first: kept[0] ?? -1 })
        : changesOf(text, item, wanted[place]!)
    if (!change) return null
    addAll(changes, change)
  }
  const added = wanted.slice(kept.length)
  if (added.length === 0) return changes
  const last = items.at(-1)!
  if (text[node.start] === '[') {
    const put = added.map((value) => `, ${inline(value)}`).join('')
    return [...changes, { from: last.end, to: last.end, text: put }]
  }
  const end = endOfLine(text, last.end)
  const begin = text.lastIndexOf('\n', last.start - 1) + 1
  const lead = /^(\s*)-\s*$/.exec(text.slice(begin, last.start))
  if (!lead) return null
  const put = added.map((value) => `${lineEnd(text)}${lead[1]}- ${inline(value)}`).join('')
  return [...changes, { from: end, to: end, text: put }]
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

/** Removes an item: its line in a block, or its part between commas in brackets. */
function takingItem(
  text: string,
  { start, items }: ListNode,
  at: { place: number; first: number },
): Change[] | null {
  if (text[start] === '[') return takingPart(items, at)
  const item = items[at.place]!
  const from = text.lastIndexOf('\n', item.start - 1) + 1
  if (text.slice(from, item.start).trim() !== '-') return null
  const end = endOfLine(text, item.end)
  return [{ from, to: Math.min(text.length, end + lineEnd(text).length), text: '' }]
}

/** The span to remove from brackets or braces, with the comma before it, or after it where it comes first. */
function takingPart(
  parts: readonly { start: number; end: number }[],
  { place, first }: { place: number; first: number },
): Change[] | null {
  const part = parts[place]!
  if (first >= 0 && first < place) return [{ from: parts[place - 1]!.end, to: part.end, text: '' }]
  const next = parts[place + 1]
  return next ? [{ from: part.start, to: next.start, text: '' }] : null
}

/** Removes a key: its line in a block, or its part between commas in braces. */
function taking(text: string, node: MapNode, at: { place: number; first: number }): Change[] | null {
  const { keyStart, value } = node.entries[at.place]!
  if (text[node.start] === '{') {
    const parts = node.entries.map((entry) => ({ start: entry.keyStart, end: entry.value.end }))
    return takingPart(parts, at)
  }
  const from = text.lastIndexOf('\n', keyStart - 1) + 1
  // The first key of an entry in a list follows its dash.
  if (text.slice(from, keyStart).trim() !== '') return null
  const end = endOfLine(text, value.end)
  return [{ from, to: Math.min(text.length, end + lineEnd(text).length), text: '' }]
}

/** The end of the line at an offset, including its comment. */
function endOfLine(text: string, at: number): number {
  const behind = text[at - 1] === '\n' ? at - 1 : at
  const stop = text.indexOf('\n', behind)
  const end = stop < 0 ? text.length : stop
  return text[end - 1] === '\r' ? end - 1 : end
}

const lineEnd = (text: string) => (text.includes('\r\n') ? '\r\n' : '\n')

const columnOf = (text: string, at: number) => at - (text.lastIndexOf('\n', at - 1) + 1)

/** A value on one line, as written after its key. */
function inline(value: PlainValue): string {
  if (Array.isArray(value)) {
    const parts = value.map(inline)
    return `[${parts.join(', ')}]`
  }
  if (isMap(value))
    return `{ ${Object.entries(value)
      .map(([key, inner]) => `${key}: ${inline(inner)}`)
      .join(', ')} }`
  // A comma in plain text would split it in brackets: so it is written as a list of one there.
  const list = entryText({ v: [value] }).trimEnd()
  return list.slice(list.indexOf('[') + 1, -1).trim()
}
