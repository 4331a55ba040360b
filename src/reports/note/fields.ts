import type { z } from 'zod'
import { type About, shapeOf } from '../../records/fields/shape.ts'
import { SEASONAL, type SeasonKind, STANDING, type StandingKind } from '../../records/kinds.ts'

/** A kind of entry or of record. */
export type Kind = SeasonKind | StandingKind

/** A field of an entry or a record as `note` takes it. */
export interface NoteField {
  /** Keys from the entry down: `['weather', 'wind']`. */
  path: readonly string[]
  /** Name of its option, without the hyphens. */
  option: string
  /**
   * `value` is one text; `list` one or more readings; `blocks`, `products`, `targets`, `actives`, `uses` are what they
   * say; `pairs` are `KEY=VALUE` texts that fill a map.
   */
  form: 'value' | 'list' | 'pairs' | 'blocks' | 'products' | 'targets' | 'actives' | 'uses'
  required: boolean
  about: About
  schema: z.ZodType
}

export const isStanding = (kind: Kind): kind is StandingKind => Object.hasOwn(STANDING, kind)

/** The schema of one entry or record. */
export const schemaOf = (kind: Kind): z.ZodObject => (isStanding(kind) ? STANDING[kind] : SEASONAL[kind])

/** The fields of a kind, in the order of its schema; of two with one name, the first. */
export function fieldsOf(kind: Kind): NoteField[] {
  const taken = new Set<string>()
  return Object.entries(schemaOf(kind).shape as Record<string, z.ZodType>)
    .flatMap(([key, schema]) => fieldsAt(key, schema))
    .filter(({ option }) => taken.size < taken.add(option).size)
}

const PAIRED = new Set(['looked_at', 'found', 'titration', 'cleared'])

function fieldsAt(key: string, schema: z.ZodType): NoteField[] {
  const shape = shapeOf(schema)
  const field = (option: string, form: NoteField['form'], more: Partial<NoteField> = {}): NoteField => ({
    path: [key],
    option,
    form,
    required: !shape.optional,
    about: aboutOf(schema),
    schema,
    ...more,
  })
  if (key === 'block' || key === 'blocks') return [field('block', 'blocks')]
  if (key === 'products')
    return [
      field('product', 'products', { about: { description: 'product and its dose' } }),
      field('for', 'targets', { required: false, about: { description: 'what it is against' } }),
    ]
  if (key === 'actives') return [field('active', 'actives')]
  if (key === 'uses') return [field('use', 'uses')]
  if (PAIRED.has(key)) return [field(optionName(key), 'pairs', { about: {} })]
  if (shape.kind !== 'map') return [field(optionName(key), shape.kind === 'one-or-more' ? 'list' : 'value')]
  return Object.entries(shape.keys).map(([inner, innerSchema]) =>
    field(optionName(inner), 'value', {
      path: [key, inner],
      required: false,
      about: aboutOf(innerSchema),
      schema: innerSchema,
    }),
  )
}

/** What a field says of itself; of a field of one or more, with the type and units of one. */
export function aboutOf(schema: z.ZodType): About {
  const shape = shapeOf(schema)
  if (shape.kind === 'value') return shape.about
  if (shape.kind === 'one-or-more') return { ...aboutOf(shape.item), ...shape.about }
  return {}
}

const optionName = (key: string) => key.replace(/_/g, '-')
