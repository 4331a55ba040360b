import * as z from 'zod'
import { choice, text } from '../../records/fields/fields.ts'
import { type About, shapeOf } from '../../records/fields/shape.ts'
import { SEASONAL } from '../../records/kinds.ts'
import { aboutFile, type Finding } from '../read/finding.ts'
import { nearest, readEntry } from '../read/read-entry.ts'
import { type Placed, placeOf } from '../read/source.ts'
import { readYaml } from '../yaml/read-yaml.ts'
import { readOutside } from './outside.ts'

/** Kinds of entry that a spreadsheet can bring. */
export const IMPORT_KINDS = ['sprays', 'samples', 'picks'] as const
export type ImportKind = (typeof IMPORT_KINDS)[number]

const constant = z.union([z.string(), z.number(), z.boolean()])

/** How to read a spreadsheet: which column holds which key, and how its values are written. */
export const MAPPING = z.strictObject({
  columns: z.record(z.string(), text('name of the column in the file')),
  units: z.record(z.string(), text('unit of the column, where its cells have none')).optional(),
  words: z.record(z.string(), z.record(z.string(), z.union([constant, z.array(z.string())]))).optional(),
  constants: z.record(z.string(), constant).optional(),
  decimal: choice(['point', 'comma'], 'decimal mark in the file').optional(),
  separator: text('what stands between the columns').optional(),
  dates: choice(['iso', 'day-first', 'month-first'], 'how the file writes dates').optional(),
  row: choice(['entry', 'product'], 'whether a row is an entry, or one product of a spray').optional(),
})

export type ImportMapping = Placed<z.output<typeof MAPPING>>

/** A key of an entry that a column may fill, with its path in the entry. */
export interface ImportField {
  key: string
  path: readonly (string | number)[]
  schema: z.ZodType
  about: About
  /** Holds one value or several. */
  several: boolean
}

/** The keys of a kind that a column may fill; a spray's product keys are listed with the others. */
export function importFields(kind: ImportKind): Map<string, ImportField> {
  const fields = new Map<string, ImportField>()
  const add = (schema: z.ZodType, path: readonly (string | number)[], key: string) => {
    const shape = shapeOf(schema)
    if (shape.kind === 'value' || shape.kind === 'one-or-more') {
      const inner = shape.kind === 'one-or-more' ? shapeOf(shape.item) : shape
      const about = inner.kind === 'value' ? inner.about : shape.about
      fields.set(key, { key, path, schema, about, several: shape.kind === 'one-or-more' })
    } else if (shape.kind === 'map') {
      for (const [name, value] of Object.entries(shape.keys))
        add(value, [...path, name], key === '' ? name : `${key}.${name}`)
    } else if (shape.kind === 'list' && key === 'products') {
      const part = shapeOf(shape.item)
      if (part.kind === 'map')
        for (const [name, value] of Object.entries(part.keys)) add(value, ['products', 0, name], name)
    }
  }
  add(SEASONAL[kind], [], '')
  return fields
}

/** Reads a mapping file; its findings point into that file. */
export function readMapping(
  file: string,
  { cwd, kind }: { cwd: string; kind: ImportKind },
): { mapping: ImportMapping | null; findings: Finding[] } {
  const read = readOutside(cwd, file)
  if (read.finding) return { mapping: null, findings: [read.finding] }
  const at = { file, text: read.text }
  const { node, findings } = readYaml(at)
  if (!node) {
    const empty = aboutFile(file, {
      name: 'empty-file',
      message: 'the mapping holds nothing',
      help: 'write which column holds which key; `rowbook schema mapping` says how',
    })
    return { mapping: null, findings: findings.length > 0 ? findings : [empty] }
  }
  const result = readEntry(MAPPING, { at, node })
  if (!result.record) return { mapping: null, findings: result.findings }
  const record = result.record as ImportMapping
  return { mapping: record, findings: faultsOf(record, kind) }
}

function faultsOf(record: ImportMapping, kind: ImportKind): Finding[] {
  const fields = importFields(kind)
  const known = [...fields.keys()]
  const findings: Finding[] = []
  const tell = (path: string[], name: string, message: string, help: string) =>
    findings.push({ ...placeOf(record.source, path, 'key'), name, level: 'error', message, help })
  for (const part of ['columns', 'units', 'words', 'constants'] as const)
    for (const key of Object.keys(record[part] ?? {})) {
      const isColumn = record.columns[key] !== undefined
      const keys = `keys: ${known.join(', ')}`
      if (!fields.has(key))
        tell([part, key], 'unknown-key', `\`${key}\` is not a key of ${kind}`, nearest(key, known) ?? keys)
      else if (part === 'constants' && isColumn)
        tell([part, key], 'two-measures', `\`${key}\` is a column and a constant`, 'keep one of them')
      else if (part !== 'constants' && !isColumn) {
        const message = `\`${key}\` is no column of this mapping`
        tell([part, key], 'unknown-key', message, 'name it under `columns:` too')
      }
    }
  if (record.row === 'product' && kind !== 'sprays')
    tell(['row'], 'unknown-word', 'only a spray has products', 'take `row` out')
  return findings
}
