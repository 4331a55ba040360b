import type { z } from 'zod'
import { type About, shapeOf } from '../../records/fields/shape.ts'
import { SEASON_KINDS, SEASONAL, type SeasonKind, SINGULAR } from '../../records/kinds.ts'

/** A field of an entry as `note` takes it. */
export interface NoteField {
  /** Keys from the entry down: `['weather', 'wind']`. */
  path: readonly string[]
  /** Name of its option, without the hyphens. */
  option: string
  /**
   * `value` is one text; `list` one or more readings; `blocks`, `products`, `targets` are what they say; `pairs`
   * are `KEY=VALUE` texts that fill a map.
   */
  form: 'value' | 'list' | 'blocks' | 'products' | 'targets' | 'pairs'
  required: boolean
  about: About
  schema: z.ZodType
}

/** The kind that a word on the command line names, in the singular or as its folder is called. */
export function kindOf(word: string): SeasonKind | null {
  return SEASON_KINDS.find((kind) => SINGULAR[kind] === word || kind === word) ?? null
}

/** The fields of a kind of entry, in the order of its schema. */
export function fieldsOf(kind: SeasonKind): NoteField[] {
  return fieldsOfShape(SEASONAL[kind].shape as Record<string, z.ZodType>)
}

/** The fields of a record, from the keys of its schema. */
export function fieldsOfShape(shape: Readonly<Record<string, z.ZodType>>): NoteField[] {
  return Object.entries(shape).flatMap(([key, schema]) => fieldsAt(key, schema))
}

const PAIRED = new Set(['looked_at', 'found', 'titration', 'cleared'])
const IDS = new Set(['block', 'blocks'])

function fieldsAt(key: string, schema: z.ZodType): NoteField[] {
  const shape = shapeOf(schema)
  const base = { path: [key], schema, required: !shape.optional }
  if (IDS.has(key)) return [{ ...base, option: 'block', form: 'blocks', about: aboutOf(schema) }]
  if (key === 'products') {
    const targets = { ...base, option: 'for', form: 'targets' as const, required: false }
    return [
      { ...base, option: 'product', form: 'products', about: { description: 'product and its dose' } },
      { ...targets, about: { description: 'what it is against' } },
    ]
  }
  if (PAIRED.has(key)) return [{ ...base, option: optionName(key), form: 'pairs', about: {} }]
  if (shape.kind === 'map') {
    return Object.entries(shape.keys).map(([inner, innerSchema]) => ({
      path: [key, inner],
      option: optionName(inner),
      form: 'value' as const,
      required: false,
      about: aboutOf(innerSchema),
      schema: innerSchema,
    }))
  }
  const form = shape.kind === 'one-or-more' ? 'list' : 'value'
  return [{ ...base, option: optionName(key), form, about: aboutOf(schema) }]
}

/** What a field says of itself; of a field of one or more, with the type and units of one. */
export function aboutOf(schema: z.ZodType): About {
  const shape = shapeOf(schema)
  if (shape.kind === 'value') return shape.about
  if (shape.kind === 'one-or-more') return { ...aboutOf(shape.item), ...shape.about }
  return {}
}

const optionName = (key: string) => key.replace(/_/g, '-')
