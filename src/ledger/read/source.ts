/** A file's text, with line starts to turn an offset into line and column. */
export interface FileText {
  /** Path relative to the ledger, with forward slashes. */
  file: string
  text: string
}

/** A value in a file, with the offsets of its start and end. */
export type Node = MapNode | ListNode | ScalarNode

export interface MapNode {
  kind: 'map'
  start: number
  end: number
  entries: MapEntry[]
}

export interface MapEntry {
  key: string
  keyStart: number
  keyEnd: number
  value: Node
}

export interface ListNode {
  kind: 'list'
  start: number
  end: number
  items: Node[]
}

export interface ScalarNode {
  kind: 'scalar'
  start: number
  end: number
  value: string | number | boolean | null
  /** The scalar as typed, without its quotes. */
  text: string
}

/** The place of an entry: its file and its node in it. */
export interface Source {
  readonly at: FileText
  readonly node: Node
}

/** A record that knows its place in a file. */
export type Placed<T> = T & { readonly source: Source }

export interface Place {
  file: string
  line: number
  column: number
  /** Length of the offending text on its line, in characters. */
  length: number
}

export type Path = readonly (string | number)[]

/** Gives a record its place; `source` is not enumerable, so it never reaches a report. */
export function placed<T extends object>(record: T, source: Source): Placed<T> {
  Object.defineProperty(record, 'source', { value: source, enumerable: false })
  return record as Placed<T>
}

/**
 * The place of a value of a record, or of the nearest thing above it that was written.
 * @param path keys and indexes from the record down; the last may be missing in the file.
 * @param part the value, or the key that names it.
 */
export function placeOf(source: Source, path: Path = [], part: 'value' | 'key' = 'value'): Place {
  let node = source.node
  let span: [number, number] = firstLine(source.at.text, node)
  for (const step of path) {
    const next = child(node, step)
    if (!next) break
    node = next.node
    span = part === 'key' && next.key ? next.key : firstLine(source.at.text, node)
  }
  return placeAt(source.at, span[0], span[1])
}

/** The node at a path, or null. */
export function nodeAt(node: Node, path: Path): Node | null {
  let at: Node | null = node
  for (const step of path) at = at && (child(at, step)?.node ?? null)
  return at
}

function child(node: Node, step: string | number): { node: Node; key?: [number, number] } | null {
  if (node.kind === 'map') {
    const entry = node.entries.find((candidate) => candidate.key === String(step))
    return entry ? { node: entry.value, key: [entry.keyStart, entry.keyEnd] } : null
  }
  const item = node.kind === 'list' && typeof step === 'number' ? node.items[step] : undefined
  return item ? { node: item } : null
}

function firstLine(text: string, node: Node): [number, number] {
  const stop = text.indexOf('\n', node.start)
  return [node.start, stop === -1 ? node.end : Math.min(node.end, stop)]
}

/** Turns offsets into a place; columns count characters, not bytes or UTF-16 units, from 1. */
export function placeAt(at: FileText, start: number, end: number): Place {
  const starts = lineStarts(at)
  let line = 0
  for (let above = starts.length; above - line > 1; ) {
    const middle = (line + above) >> 1
    if (starts[middle]! <= start) line = middle
    else above = middle
  }
  return {
    file: at.file,
    line: line + 1,
    column: characters(at.text.slice(starts[line]!, start)) + 1,
    length: Math.max(1, characters(firstLineOf(at.text.slice(start, end)))),
  }
}

function firstLineOf(text: string): string {
  const stop = text.indexOf('\n')
  return stop === -1 ? text : text.slice(0, text[stop - 1] === '\r' ? stop - 1 : stop)
}

const known = new WeakMap<FileText, readonly number[]>()

/** Offsets of line starts, found once: a long list may have a finding in every entry. */
function lineStarts(at: FileText): readonly number[] {
  const before = known.get(at)
  if (before) return before
  const starts = [0]
  for (let end = at.text.indexOf('\n'); end !== -1; end = at.text.indexOf('\n', end + 1)) starts.push(end + 1)
  known.set(at, starts)
  return starts
}

const characters = (text: string): number => [...text].length
