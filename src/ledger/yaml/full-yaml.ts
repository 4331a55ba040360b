import { isMap, isScalar, isSeq, type ParsedNode, parseDocument } from 'yaml'
import type { Finding } from '../read/finding.ts'
import { type FileText, type MapEntry, type Node, placeAt } from '../read/source.ts'
import { explainFaults } from './explain-fault.ts'
import { textFaults } from './text-faults.ts'

/** Limits far above any real ledger, so that a hostile file can't use up time or memory. */
const DEEPEST = 20
const MOST_KEYS = 200
const MOST_ITEMS = 2000

const FORBIDDEN_KEYS = new Set(['__proto__', 'constructor', 'prototype', '<<'])

/** Reads YAML 1.2 with the full parser, and words its faults. Never throws, whatever the text. */
export function readFullYaml(at: FileText): YamlResult {
  const faults = textFaults(at, DEEPEST)
  if (faults.length > 0) return { node: null, findings: faults }
  const reader = new Reader(at)
  const node = reader.parse()
  return { node: reader.findings.length > 0 ? null : node, findings: reader.findings }
}

class Reader {
  readonly findings: Finding[] = []

  constructor(private readonly at: FileText) {}

  private find(start: number, end: number, name: string, message: string, help: string): void {
    this.findings.push({ ...placeAt(this.at, start, end), name, level: 'error', message, help })
  }

  parse(): Node | null {
    const document = parsed(this.at.text)
    for (const { start, end, name, message, help } of explainFaults(this.at.text, document))
      this.find(start, end, name, message, help)
    if (this.findings.length > 0 || document.contents === null) return null
    return this.convert(document.contents as ParsedNode, 0)
  }

  private convert(node: ParsedNode | null, depth: number): Node {
    if (node === null) return { kind: 'scalar', start: 0, end: 0, value: null, text: '' }
    const [start, end] = node.range
    if (depth > DEEPEST) {
      if (this.findings.length === 0)
        this.find(
          start,
          start + 1,
          'too-deep',
          `more than ${DEEPEST} levels stand one in another`,
          'an entry needs three or four at most',
        )
      return { kind: 'scalar', start, end, value: null, text: '' }
    }
    if (isMap(node)) return this.map(node as never, depth)
    if (isSeq(node)) {
      if (depth > 0 && node.items.length > MOST_ITEMS) {
        const message = `more than ${MOST_ITEMS} values stand in one list`
        this.find(start, start + 1, 'too-many-keys', message, 'split the entry')
        return { kind: 'list', start, end, items: [] }
      }
      const items = node.items.map((item) => this.convert(item as ParsedNode, depth + 1))
      return { kind: 'list', start, end: items.at(-1)?.end ?? end, items }
    }
    if (isScalar(node)) return this.scalar(node.value, node.source ?? '', start, end)
    return { kind: 'scalar', start, end, value: null, text: '' }
  }

  private scalar(value: unknown, text: string, start: number, end: number): Node {
    const odd =
      typeof value === 'string'
        ? /[\0-\x08\x0b-\x1f\x7f-\x84\x86-\x9f\u202a-\u202e\u2066-\u2069\ufeff]/.exec(value)
        : null
    if (odd)
      this.find(
        start,
        end,
        'control-character',
        'the text holds an invisible control character',
        'type the text again',
      )
    if (typeof value === 'number' && !Number.isFinite(value)) {
      this.find(start, end, 'not-a-number', `\`${text}\` is no usable number`, 'write the figure in digits')
    }
    const kept =
      typeof value === 'string' || typeof value === 'number' || typeof value === 'boolean' ? value : null
    return { kind: 'scalar', start, end, value: kept, text }
  }

  private map(node: { range: [number, number, number]; flow?: boolean; items: Pair[] }, depth: number): Node {
    const [start, end] = node.range
    if (node.items.length > MOST_KEYS) {
      this.find(
        start,
        start + 1,
        'too-many-keys',
        `more than ${MOST_KEYS} keys stand in one entry`,
        'split it',
      )
      return { kind: 'map', start, end, entries: [] }
    }
    const entries: MapEntry[] = []
    if (node.flow) this.decimalComma(node.items)
    const seen = new Map<string, number>()
    for (const { key, value } of node.items) {
      const entry = this.entry(key, value, depth)
      if (!entry) continue
      const before = seen.get(entry.key)
      if (before !== undefined) {
        const line = placeAt(this.at, before, before + 1).line
        this.find(
          entry.keyStart,
          entry.keyEnd,
          'duplicate-key',
          `\`${entry.key}\` is written twice, first on line ${line}`,
          entry.key === 'date'
            ? 'keep one of them; two entries in one file each begin with a dash and a space'
            : 'keep one of them',
        )
      }
      seen.set(entry.key, entry.keyStart)
      entries.push(entry)
    }
    return { kind: 'map', start, end: entries.at(-1)?.value.end || end, entries }
  }

  /** In braces a comma separates keys: `rate: 2,5 kg/ha` is a rate of 2 and a key `5 kg/ha`. */
  private decimalComma(pairs: readonly Pair[]): void {
    pairs.forEach(({ key, value }, index) => {
      const before = pairs[index - 1]?.value
      if (value !== null && !(isScalar(value) && value.value === null)) return
      if (!isScalar(key) || !isScalar(before)) return
      const [whole, rest] = [before.source ?? '', key.source ?? '']
      if (!/^\d+$/.test(whole) || !/^\d/.test(rest) || before.range![1] + 1 !== key.range![0]) return
      const message = `\`${whole},${rest}\` has a comma in its number`
      this.find(
        before.range![0],
        key.range![1],
        'decimal-comma',
        message,
        `write a point: \`${whole}.${rest}\``,
      )
    })
  }

  private entry(key: ParsedNode | null, value: ParsedNode | null, depth: number): MapEntry | null {
    if (!key || !isScalar(key)) {
      const [start, end] = key?.range ?? [0, 1]
      this.find(start, end, 'odd-key', 'a key here is a plain word', 'write `word: value`')
      return null
    }
    const name = key.source ?? String(key.value)
    const [keyStart, keyEnd] = key.range as [number, number, number]
    if (FORBIDDEN_KEYS.has(name)) {
      this.find(keyStart, keyEnd, 'unknown-key', `\`${name}\` can't be a key here`, 'delete it')
      return null
    }
    const read = this.convert(value, depth + 1)
    return {
      key: name,
      keyStart,
      keyEnd,
      value: read.end === 0 ? { ...read, start: keyEnd, end: keyEnd } : read,
    }
  }
}

interface Pair {
  key: ParsedNode
  value: ParsedNode | null
}

/** Parses the document without stack traces, which would take most of the time with many faults. */
function parsed(text: string) {
  const { stackTraceLimit } = Error
  Error.stackTraceLimit = 0
  try {
    return parseDocument(text, {
      version: '1.2',
      schema: 'core',
      merge: false,
      uniqueKeys: false,
      logLevel: 'error',
      prettyErrors: false,
    })
  } finally {
    Error.stackTraceLimit = stackTraceLimit
  }
}

export interface YamlResult {
  /** null where the file is empty or broken. */
  node: Node | null
  findings: Finding[]
}
