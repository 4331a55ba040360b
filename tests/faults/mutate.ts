import type { MapNode, Node } from '../../src/ledger/read/source.ts'
import { readYaml } from '../../src/ledger/yaml/read-yaml.ts'

/** One field of one record, changed. */
export interface Mutation {
  file: string
  /** Keys down to the field; items of lists as `*`. */
  field: string
  how: string
  /** Line of the field, or of its entry where the field was removed. */
  line: number
  /** Lines of the entry, where the field was removed. */
  entry: { first: number; last: number }
  /** Whether no valid ledger can hold it, so that it must be found. */
  illegal: boolean
  text: string
}

interface Change {
  how: string
  text: string
  illegal: boolean
}

const NUMBER = /^[+-]?\d+(?:\.\d+)?$/
const DATE = /^\d{4}-\d{2}-\d{2}$/
const QUANTITY = /^([+-]?\d+(?:\.\d+)?(?:-\d+(?:\.\d+)?)?) (\S.*)$/
const FREE_TEXT =
  /(^|\.)(name|note|operator|who|label|location|job|seeds|taste|where|sky|from|number|instrument)$/

/** Every mutation of every field of a file, in the order of the file. */
export function mutationsOf(file: string, text: string): Mutation[] {
  const { node } = readYaml({ file, text })
  if (!node) return []
  const entries = node.kind === 'list' ? node.items : [node]
  return entries.flatMap((entry) => (entry.kind === 'map' ? ofEntry({ file, text }, entry) : []))
}

function ofEntry(at: { file: string; text: string }, entry: MapNode): Mutation[] {
  const { text } = at
  const lineAt = (offset: number) => text.slice(0, offset).split('\n').length
  const lines = { first: lineAt(entry.start), last: lineAt(Math.max(entry.start, entry.end - 1)) }
  const found: Mutation[] = []
  const add = (field: string, start: number, end: number, change: Change) => {
    const next = text.slice(0, start) + change.text + text.slice(end)
    if (next === text) return
    found.push({
      ...at,
      field,
      how: change.how,
      illegal: change.illegal,
      line: lineAt(start),
      entry: lines,
      text: next,
    })
  }
  const visitMap = (map: MapNode, path: string) => {
    for (const { key, keyStart, keyEnd, value } of map.entries) {
      const field = path ? `${path}.${key}` : key
      const free = path === 'columns' || /weather\.(columns|units)|thresholds|classes/.test(path)
      const span = spanOf(text, map, keyStart, value)
      add(field, span.start, span.end, { how: 'taken out', text: '', illegal: false })
      add(field, keyStart, keyEnd, { how: 'key misspelt', text: misspelt(key), illegal: !free })
      const again = text.slice(keyStart, value.end)
      if (!again.includes('\n')) {
        const join = text.slice(map.start, map.start + 1) === '{' ? ', ' : `\n${indentOf(text, keyStart)}`
        add(field, value.end, value.end, { how: 'key twice', text: `${join}${again}`, illegal: true })
      }
      visit(value, field)
    }
  }
  const visit = (node: Node, field: string) => {
    if (node.kind === 'map') visitMap(node, field)
    else if (node.kind === 'list') for (const item of node.items) visit(item, `${field}.*`)
    else if (node.end > node.start)
      for (const change of changesOf(text.slice(node.start, node.end), field))
        add(field, node.start, node.end, change)
  }
  visitMap(entry, '')
  return found
}

/** What a value can be changed into, by what it looks like. */
function changesOf(value: string, field: string): Change[] {
  const free = FREE_TEXT.test(field)
  const changes: Change[] = [
    { how: 'a map', text: `{ odd: 1 }`, illegal: true },
    { how: 'nothing', text: '""', illegal: true },
  ]
  const add = (how: string, text: string, illegal = false) => changes.push({ how, text, illegal })
  if (DATE.test(value)) {
    add('a day later', shifted(value, 1))
    add('a year later', `${Number(value.slice(0, 4)) + 1}${value.slice(4)}`)
    add('a century off', `19${value.slice(2)}`)
    add('day 32', `${value.slice(0, 8)}32`, true)
    add('month 13', `${value.slice(0, 5)}13${value.slice(7)}`, true)
    add('no year', `${value.slice(8)}.${value.slice(5, 7)}.`, true)
    return changes
  }
  const quantity = QUANTITY.exec(value)
  if (quantity && !free) {
    const [, number, unit] = quantity
    add('no unit', number!, true)
    add('an unknown unit', `${number} furlong`, true)
    add('a unit of another kind', `${number} ${/^(mm|cm|m|km)$/.test(unit!) ? 'kg' : 'mm'}`, true)
    for (const change of ofNumber(number!, field.endsWith('*')))
      add(change.how, `${change.text} ${unit}`, change.illegal)
    return changes
  }
  if (NUMBER.test(value) && !free) {
    add('a word', 'several', true)
    changes.push(...ofNumber(value, field.endsWith('*')))
    return changes
  }
  if (/^[a-z0-9]+(-[a-z0-9]+)*$/.test(value) && !free) {
    add('a letter dropped', value.slice(0, -1), !/(for|against|keep_apart|kind|actives|rows)/.test(field))
    add(
      'capitals',
      value.toUpperCase(),
      !/(for|against|keep_apart|kind|actives|group|weather\.columns)/.test(field),
    )
  }
  return changes
}

function ofNumber(number: string, inList: boolean): Change[] {
  const range = /^(\d+(?:\.\d+)?)-(\d+(?:\.\d+)?)$/.exec(number)
  if (range) {
    return [
      { how: 'a range backwards', text: `${range[2]}-${range[1]}`, illegal: range[1] !== range[2] },
      { how: 'ten times the high end', text: `${range[1]}-${Number(range[2]) * 10}`, illegal: false },
      { how: 'a tenth of the low end', text: `${Number(range[1]) / 10}-${range[2]}`, illegal: false },
    ]
  }
  const value = Number(number)
  if (!Number.isFinite(value)) return []
  return [
    { how: 'a thousand times', text: String(value * 1000), illegal: false },
    { how: 'ten times', text: String(Number((value * 10).toPrecision(12))), illegal: false },
    { how: 'a tenth', text: String(Number((value / 10).toPrecision(12))), illegal: false },
    { how: 'ten per cent more', text: String(Number((value * 1.1).toPrecision(12))), illegal: false },
    { how: 'zero', text: '0', illegal: false },
    { how: 'negative', text: String(-value), illegal: false },
    { how: 'a decimal comma', text: `${Math.trunc(value)},5`, illegal: !inList },
    { how: 'not finite', text: '.inf', illegal: true },
  ]
}

/** Start and end of an entry of a map, with what separates it from its neighbours. */
function spanOf(text: string, map: MapNode, keyStart: number, value: Node): { start: number; end: number } {
  if (text[map.start] === '{') {
    const after = /^\s*,\s*/.exec(text.slice(value.end))
    if (after) return { start: keyStart, end: value.end + after[0].length }
    const before = /,\s*$/.exec(text.slice(0, keyStart))
    return { start: before ? before.index : keyStart, end: value.end }
  }
  const stop = text.indexOf('\n', Math.max(value.end - 1, keyStart))
  const next = stop === -1 ? text.length : stop + 1
  const indent = indentOf(text, keyStart)
  // The first key of a list entry follows the dash, which stays.
  const rest = text.slice(next)
  return { start: keyStart, end: rest.startsWith(indent) ? next + indent.length : next }
}

const indentOf = (text: string, offset: number): string =>
  ' '.repeat(offset - (text.lastIndexOf('\n', offset - 1) + 1))

const misspelt = (key: string): string =>
  key.length > 2 ? `${key.slice(0, -2)}${key.at(-1)}${key.at(-2)}z` : `${key}q`

function shifted(date: string, days: number): string {
  return new Date(Date.parse(date) + days * 86_400_000).toISOString().slice(0, 10)
}
