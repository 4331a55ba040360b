import type { ListNode, MapEntry, MapNode, Node, ScalarNode } from '../read/source.ts'
import { plainScalar } from './plain-scalar.ts'
import * as token from './plain-tokens.ts'

/** Far less than `full-yaml.ts` allows: texts near its limits are left to it. */
const DEEPEST = 10
const MOST_KEYS = 200
/** Values of one list inside an entry. */
const MOST_ITEMS = 2000

/**
 * Thrown where the text holds something this reader doesn't handle; one shared object, since it only ends the reading.
 */
const UNKNOWN = new Error('not the plain subset')

/**
 * Reads the plain subset of YAML that ledgers are written in: block and flow maps and lists, plain and quoted
 * scalars of one line, comments. It gives the same nodes as `readYaml`, many times faster, or null for
 * anything it doesn't handle or finds wrong: then the full parser decides, and words the fault. Never throws.
 */
export function readPlainYaml(text: string): Node | null {
  if (token.DOUBTFUL.test(text)) return null
  try {
    return new PlainReader(text).document()
  } catch (error) {
    // A RangeError is the regular expressions' own limit, on lines of millions of characters.
    if (error === UNKNOWN || error instanceof RangeError) return null
    throw error
  }
}

class PlainReader {
  private index = 0
  private lineStart = 0
  /** Column of the next content, set at the end of a line; -1 at the end of the text. */
  private column = 0

  constructor(private readonly text: string) {}

  document(): Node {
    this.nextContent()
    this.expectColumn(0)
    const node = this.isDash() ? this.blockList(1) : this.isKey() ? this.blockMap(1) : this.flowAlone(-1, 1)
    this.expectColumn(-1)
    return node
  }

  private expectColumn(column: number): void {
    if (this.column !== column) throw UNKNOWN
  }

  private code(): number {
    return this.text.charCodeAt(this.index)
  }

  /** Skips what the pattern matches here, or gives up. */
  private pass(pattern: RegExp): void {
    pattern.lastIndex = this.index
    if (!pattern.test(this.text)) throw UNKNOWN
    this.index = pattern.lastIndex
  }

  private spaces(): void {
    while (this.code() === token.SPACE) this.index += 1
  }

  private isAtLineEnd(): boolean {
    const code = this.code()
    return code === token.NEWLINE || code === token.RETURN || this.index >= this.text.length
  }

  /** Checks that only spaces and a comment follow a value on its line. */
  private endLine(): void {
    this.pass(token.REST_OF_LINE)
    this.nextContent()
  }

  /** Moves from the start of a line to the next character outside comments. */
  private nextContent(): void {
    this.pass(token.BLANK_LINES)
    this.lineStart = this.index
    this.spaces()
    if (this.code() === token.HASH) this.pass(token.LAST_COMMENT)
    this.column = this.index >= this.text.length ? -1 : this.index - this.lineStart
  }

  private isDash(): boolean {
    return this.code() === token.DASH && this.text.charCodeAt(this.index + 1) === token.SPACE
  }

  private isKey(): boolean {
    token.KEY.lastIndex = this.index
    return token.KEY.test(this.text)
  }

  private blockMap(depth: number): MapNode {
    if (depth > DEEPEST) throw UNKNOWN
    const start = this.index
    const indent = start - this.lineStart
    const entries: MapEntry[] = []
    do {
      const entry = this.key(entries)
      entry.value = this.blockValue(indent, depth + 1)
    } while (this.column === indent)
    if (this.column > indent) throw UNKNOWN
    return { kind: 'map', start, end: entries[entries.length - 1]!.value.end, entries }
  }

  /** Reads a key and adds its entry; the value follows. */
  private key(entries: MapEntry[]): MapEntry {
    const keyStart = this.index
    this.pass(token.KEY)
    const keyEnd = this.index - 1
    const key = this.text.slice(keyStart, keyEnd)
    if (key === '__proto__' || key === 'constructor' || key === 'prototype') throw UNKNOWN
    if (entries.length >= MOST_KEYS || entries.some((other) => other.key === key)) throw UNKNOWN
    const entry: MapEntry = { key, keyStart, keyEnd, value: NOTHING }
    entries.push(entry)
    return entry
  }

  /** A value after its key, or on the lines below: deeper, or a list whose dashes align with the key. */
  private blockValue(indent: number, depth: number): Node {
    const behindKey = this.index
    this.spaces()
    if (!this.isAtLineEnd() && this.code() !== token.HASH) return this.inlineValue(indent, depth)
    this.index = behindKey
    this.endLine()
    if (this.column >= indent && this.isDash()) return this.blockList(depth)
    if (this.column > indent && this.isKey()) return this.blockMap(depth)
    throw UNKNOWN
  }

  private blockList(depth: number): ListNode {
    if (depth > DEEPEST) throw UNKNOWN
    const start = this.index
    const indent = start - this.lineStart
    const items: Node[] = []
    do {
      this.index += 1
      this.spaces()
      items.push(this.isKey() ? this.blockMap(depth + 1) : this.inlineValue(indent, depth + 1))
      if (depth > 1 && items.length > MOST_ITEMS) throw UNKNOWN
    } while (this.column === indent && this.isDash())
    if (this.column > indent) throw UNKNOWN
    return { kind: 'list', start, end: items[items.length - 1]!.end, items }
  }

  /** A value on the line of its key or dash, to the end of the line. */
  private inlineValue(indent: number, depth: number): Node {
    const code = this.code()
    if (code === token.OPEN_LIST || code === token.OPEN_MAP) return this.flowAlone(indent, depth)
    const node =
      code === token.QUOTE || code === token.APOSTROPHE ? this.quoted(code) : this.plain(token.BLOCK_PLAIN)
    this.endLine()
    return node
  }

  /** A flow collection to the end of the line that closes it. */
  private flowAlone(indent: number, depth: number): Node {
    const code = this.code()
    if (code !== token.OPEN_LIST && code !== token.OPEN_MAP) throw UNKNOWN
    const node = this.flow(indent, depth)
    this.endLine()
    return node
  }

  private flow(indent: number, depth: number): Node {
    const code = this.code()
    if (code === token.OPEN_LIST) return this.flowList(indent, depth)
    if (code === token.OPEN_MAP) return this.flowMap(indent, depth)
    return code === token.QUOTE || code === token.APOSTROPHE
      ? this.quoted(code)
      : this.plain(token.FLOW_PLAIN)
  }

  private flowList(indent: number, depth: number): ListNode {
    const start = this.index
    const items: Node[] = []
    this.open(indent, depth)
    while (this.code() !== token.CLOSE_LIST) {
      items.push(this.flow(indent, depth + 1))
      if (depth > 1 && items.length > MOST_ITEMS) throw UNKNOWN
      this.comma(token.CLOSE_LIST, indent)
    }
    this.index += 1
    return { kind: 'list', start, end: items.length > 0 ? items[items.length - 1]!.end : this.index, items }
  }

  private flowMap(indent: number, depth: number): MapNode {
    const start = this.index
    const entries: MapEntry[] = []
    this.open(indent, depth)
    while (this.code() !== token.CLOSE_MAP) {
      const entry = this.key(entries)
      this.spaces()
      entry.value = this.flow(indent, depth + 1)
      this.comma(token.CLOSE_MAP, indent)
    }
    this.index += 1
    const end = entries.length > 0 ? entries[entries.length - 1]!.value.end : this.index
    return { kind: 'map', start, end, entries }
  }

  private open(indent: number, depth: number): void {
    if (depth > DEEPEST) throw UNKNOWN
    this.index += 1
    this.flowSpace(indent)
  }

  /** After an item of a flow collection: a comma, or the closing bracket. */
  private comma(close: number, indent: number): void {
    this.flowSpace(indent)
    if (this.code() === token.COMMA) {
      this.index += 1
      this.flowSpace(indent)
    } else if (this.code() !== close) throw UNKNOWN
  }

  /** Space between items of a flow collection; further lines must be indented deeper than its key. */
  private flowSpace(indent: number): void {
    const from = this.index
    this.spaces()
    if (!this.isAtLineEnd()) return
    this.pass(token.FLOW_SPACE)
    this.lineStart = this.text.lastIndexOf('\n', this.index - 1) + 1
    if (this.lineStart <= from || this.index - this.lineStart <= indent) throw UNKNOWN
  }

  /** A scalar in quotes on one line, without escapes. Two apostrophes stand for one. */
  private quoted(quote: number): ScalarNode {
    const start = this.index
    this.pass(quote === token.QUOTE ? token.DOUBLE_QUOTED : token.SINGLE_QUOTED)
    const inside = this.text.slice(start + 1, this.index - 1)
    const value = quote === token.APOSTROPHE && inside.includes("''") ? inside.replaceAll("''", "'") : inside
    return { kind: 'scalar', start, end: this.index, value, text: value }
  }

  private plain(pattern: RegExp): ScalarNode {
    const start = this.index
    this.pass(pattern)
    const text = this.text.slice(start, this.index)
    const value = plainScalar(text)
    if (typeof value === 'number' && !Number.isFinite(value)) throw UNKNOWN
    return { kind: 'scalar', start, end: this.index, value, text }
  }
}

/** Placeholder in an entry until its value is read. */
const NOTHING: ScalarNode = { kind: 'scalar', start: 0, end: 0, value: null, text: '' }
