import type { z } from 'zod'
import type { PlainValue } from '../../ledger/write/entry-text.ts'
import { readRange } from '../../records/quantity.ts'
import { isNumeric, shapeOf } from '../../records/shape.ts'

/**
 * A value of an entry as the JSON contract has it: keys in camelCase, quantities as `{ value, unit }` and spans
 * as `{ low, high, unit }` in the program's own units, readings always as a list; dates, times and words as
 * they are written.
 */
export function contractForm(schema: z.ZodType, value: PlainValue): unknown {
  const shape = shapeOf(schema)
  if (shape.kind === 'one-or-more')
    return (Array.isArray(value) ? value : [value]).map((one) => contractForm(shape.item, one))
  if (shape.kind === 'list' && Array.isArray(value)) return value.map((one) => contractForm(shape.item, one))
  if (typeof value === 'object' && !Array.isArray(value)) {
    return Object.fromEntries(
      Object.entries(value).map(([key, inner]) => {
        if (shape.kind === 'table') return [key, contractForm(shape.value, inner)]
        const below = shape.kind === 'map' ? shape.keys[key] : undefined
        return [camel(key), below ? contractForm(below, inner) : inner]
      }),
    )
  }
  const about = shape.kind === 'value' ? shape.about : {}
  const { keeps } = about
  if (isNumeric(about) && typeof value === 'string' && !Number.isNaN(Number(value))) return Number(value)
  return keeps ? quantityForm(String(value), keeps) : value
}

function quantityForm(text: string, keeps: readonly string[]): unknown {
  const { range } = readRange(text, keeps)
  if (!range) return text
  const { low, high, unit } = range
  if (low !== high) return unit === '' ? { low, high } : { low, high, unit }
  return unit === '' ? low : { value: low, unit }
}

const camel = (key: string) => key.replace(/_(\w)/g, (_, letter: string) => letter.toUpperCase())
