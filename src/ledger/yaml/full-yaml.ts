import type { ParsedNode, YAMLMap } from 'yaml'
import type { Finding } from '../read/finding.ts'
import { type FileText, type MapEntry, type Node, placeAt, type ScalarNode } from '../read/source.ts'
import { explainFaults } from './explain-fault.ts'
import { yaml } from './library.ts'
import { type TextFault, textFaults } from './text-faults.ts'

/** Limits far above any real ledger, so that a hostile file can't use up time or memory. */
const DEEPEST = 20
const MOST_KEYS = 200
const MOST_ITEMS = 2000

const FORBIDDEN_KEYS = new Set(['__proto__', 'constructor', 'prototype', '<<'])
/** Characters that can't be seen, and may turn the direction of a line. */
const INVISIBLE = /[\0-\x08\x0b-\x1f\x7f-\x84\x86-\x9f\u202a-\u202e\u2066-\u2069\ufeff]/

export interface YamlResult {
  /** null where the file is empty or broken. */
  node: Node | null
  findings: Finding[]
}

/** Reads YAML 1.2 with the full parser, and words its faults. Never throws, whatever the text. */
export function readFullYaml(at: FileText): YamlResult {
  const { node, faults } = read(at.text)
  const findings = faults.map(({ start, end, name, message, help }): Finding => {
    return { ...placeAt(at, start, end), name, level: 'error', message, help }
  })
  return { node: findings.length > 0 ? null : node, findings }
}

function read(text: string): { node: Node | null; faults: readonly TextFault[] } {
  const unread = textFaults(text, DEEPEST)
  if (unread.length > 0) return { node: null, faults: unread }
  const document = parsed(text)
  const faults = explainFaults(text, document)
  const { contents } = document
  if (faults.length > 0 || contents === null) return { node: null, faults }
  return { node: new Converter(text, faults).node(contents, 0), faults }
}

type ParsedMap = YAMLMap.Parsed<ParsedNode, ParsedNode | null>
type Pairs = ParsedMap['items']

const scalar = (start: number, end: number, value: ScalarNode['value'] = null, text = ''): ScalarNode => ({
  kind: 'scalar',
  start,
  end,
  value,
  text,
})

/** Turns parsed nodes into ours, and adds what is wrong with them to the faults. */
class Converter {
  constructor(
    private readonly text: string,
    private readonly faults: TextFault[],
  ) {}

  private find([start, end]: readonly number[], name: string, message: string, help: string): void {
    this.faults.push({ start: start!, end: end!, name, message, help })
  }

  node(node: ParsedNode, depth: number): Node {
    const [start, end] = node.range
    const opening = [start, start + 1]
    if (depth > DEEPEST) {
      const message = `more than ${DEEPEST} levels stand one in another`
      if (this.faults.length === 0)
        this.find(opening, 'too-deep', message, 'an entry needs three or four at most')
      return scalar(start, end)
    }
    if (yaml().isMap(node)) {
      const entries = this.entries(node as ParsedMap, depth)
      return { kind: 'map', start, end: entries.at(-1)?.value.end ?? end, entries }
    }
    if (!yaml().isSeq(node)) return this.scalar(node)
    if (depth > 0 && node.items.length > MOST_ITEMS) {
      const message = `more than ${MOST_ITEMS} values stand in one list`
      this.find(opening, 'too-many-keys', message, 'split the entry')
      return { kind: 'list', start, end, items: [] }
    }
    const items = node.items.map((item) => this.node(item as ParsedNode, depth + 1))
    return { kind: 'list', start, end: items.at(-1)?.end ?? end, items }
  }

  private scalar(node: ParsedNode): Node {
    const { value, source: text = '' } = yaml().isScalar(node) ? node : { value: null }
    if (typeof value === 'string' && INVISIBLE.test(value)) {
      const message = 'the text holds an invisible control character'
      this.find(node.range, 'control-character', message, 'type the text again')
    }
    if (typeof value === 'number' && !Number.isFinite(value))
      this.find(node.range, 'not-a-number', `\`${text}\` is no usable number`, 'write the figure in digits')
    const isKept = typeof value === 'string' || typeof value === 'number' || typeof value === 'boolean'
    return scalar(node.range[0], node.range[1], isKept ? value : null, text)
  }

  private entries({ range: [start], flow, items }: ParsedMap, depth: number): MapEntry[] {
    if (items.length > MOST_KEYS) {
      const message = `more than ${MOST_KEYS} keys stand in one entry`
      this.find([start, start + 1], 'too-many-keys', message, 'split it')
      return []
    }
    if (flow) this.decimalComma(items)
    const entries: MapEntry[] = []
    for (const pair of items) {
      const entry = this.entry(pair, depth)
      if (!entry) continue
      const { key, keyStart, keyEnd } = entry
      const before = entries.find((other) => other.key === key)
      if (before) {
        const message = `\`${key}\` is written twice, first on line ${this.lineOf(before.keyStart)}`
        const split = key === 'date' ? '; two entries in one file each begin with a dash and a space' : ''
        this.find([keyStart, keyEnd], 'duplicate-key', message, `keep one of them${split}`)
      }
      entries.push(entry)
    }
    return entries
  }

  private lineOf(offset: number): number {
    return this.text.slice(0, offset).split('\n').length
  }

  /** In braces a comma separates keys: `rate: 2,5 kg/ha` is a rate of 2 and a key `5 kg/ha`. */
  private decimalComma(pairs: Pairs): void {
    pairs.forEach(({ key, value }, index) => {
      const before = pairs[index - 1]?.value
      if (value !== null && !(yaml().isScalar(value) && value.value === null)) return
      if (!yaml().isScalar(key) || !yaml().isScalar(before)) return
      const [whole, rest] = [before.source, key.source]
      if (!/^\d+$/.test(whole) || !/^\d/.test(rest) || before.range[1] + 1 !== key.range[0]) return
      const message = `\`${whole},${rest}\` has a comma in its number`
      const span = [before.range[0], key.range[1]]
      this.find(span, 'decimal-comma', message, `write a point: \`${whole}.${rest}\``)
    })
  }

  private entry({ key, value }: Pairs[number], depth: number): MapEntry | null {
    if (!yaml().isScalar(key)) {
      this.find(key.range, 'odd-key', 'a key here is a plain word', 'write `word: value`')
      return null
    }
    const [keyStart, keyEnd] = key.range
    if (FORBIDDEN_KEYS.has(key.source)) {
      this.find(key.range, 'unknown-key', `\`${key.source}\` can't be a key here`, 'delete it')
      return null
    }
    const read = value === null ? scalar(keyEnd, keyEnd) : this.node(value, depth + 1)
    return { key: key.source, keyStart, keyEnd, value: read }
  }
}

/** Parses the document without stack traces, which would take most of the time with many faults. */
function parsed(text: string) {
  const { stackTraceLimit } = Error
  Error.stackTraceLimit = 0
  try {
    return yaml().parseDocument(text, {
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
