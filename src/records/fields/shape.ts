import type { z } from 'zod'

/** The shape of a place in a record, from its schema: for prompts, options and help. */
type Shape =
  | { kind: 'map'; keys: Record<string, z.ZodType>; optional: boolean }
  | { kind: 'list'; item: z.ZodType; optional: boolean }
  | { kind: 'table'; value: z.ZodType; optional: boolean }
  | { kind: 'one-or-more'; item: z.ZodType; about: About; optional: boolean }
  | { kind: 'value'; about: About; optional: boolean }

/** A field's own description. */
export interface About {
  type?: string | readonly string[]
  description?: string
  examples?: readonly unknown[]
  enum?: readonly (string | number)[]
  format?: string
  /** Units that a quantity is kept in; `''` stands for a bare number. */
  keeps?: readonly string[]
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
  const definition = at.def as unknown as Definition
  if (definition.shape) return { kind: 'map', keys: definition.shape, optional }
  if (definition.element) return { kind: 'list', item: definition.element, optional }
  if (definition.valueType) return { kind: 'table', value: definition.valueType, optional }
  const { oneOrMore, ...about } = (at.meta() ?? {}) as About & { oneOrMore?: z.ZodType }
  return oneOrMore
    ? { kind: 'one-or-more', item: oneOrMore, about, optional }
    : { kind: 'value', about, optional }
}

/** Whether a field holds a bare number. */
export function isNumeric(about: About): boolean {
  return about.type === 'number' || about.type === 'integer'
}
