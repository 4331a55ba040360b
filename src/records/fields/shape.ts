import type { z } from 'zod'

/** The shape of a place in a record, from its schema: for prompts, options and help. */
type Shape = { about: About; optional: boolean } & (
  | { kind: 'map'; keys: Record<string, z.ZodType> }
  | { kind: 'list' | 'one-or-more'; item: z.ZodType }
  | { kind: 'table'; value: z.ZodType }
  | { kind: 'value' }
)

/** A field's own description. */
export interface About {
  type?: string | readonly string[]
  description?: string
  examples?: readonly unknown[]
  enum?: readonly (string | number)[]
  format?: string
  /** Units that a quantity is kept in; `''` stands for a bare number. */
  keeps?: readonly string[]
  /** A word that may stand in place of keys and values. */
  orWord?: string
}

interface Definition {
  type: string
  shape?: Record<string, z.ZodType>
  element?: z.ZodType
  innerType?: z.ZodType
  in?: z.ZodType
  valueType?: z.ZodType
}

/** The shape of a schema, with `optional`, defaults and transforms taken off. */
export function shapeOf(schema: z.ZodType): Shape {
  let at = schema
  let optional = false
  for (;;) {
    const definition = at.def as unknown as Definition
    if (definition.type === 'optional' || definition.type === 'default') optional = true
    const inner = definition.innerType ?? (definition.type === 'pipe' ? definition.in : undefined)
    if (!inner) break
    at = inner
  }
  const { shape, element, valueType } = at.def as unknown as Definition
  const { oneOrMore, ...about } = (at.meta() ?? {}) as About & { oneOrMore?: z.ZodType }
  if (shape) return { kind: 'map', keys: shape, about, optional }
  if (element) return { kind: 'list', item: element, about, optional }
  if (valueType) return { kind: 'table', value: valueType, about, optional }
  return oneOrMore
    ? { kind: 'one-or-more', item: oneOrMore, about, optional }
    : { kind: 'value', about, optional }
}

/** The schema of what stands under a key or at an index; null where nothing may. */
export function schemaUnder(schema: z.ZodType, step: string | number): z.ZodType | null {
  const shape = shapeOf(schema)
  if (shape.kind === 'map') return Object.hasOwn(shape.keys, step) ? shape.keys[step]! : null
  if (shape.kind === 'table') return shape.value
  return shape.kind === 'list' && typeof step === 'number' ? shape.item : null
}

/** Whether a field holds a bare number. */
export function isNumeric(about: About): boolean {
  return about.type === 'number' || about.type === 'integer'
}
