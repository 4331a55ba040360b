import type { z } from 'zod'
import type { PlainValue } from '../../ledger/write/entry-text.ts'
import { type FullContainers, readContainers, weightOf } from '../../records/fields/fruit-weight.ts'
import { isNumeric, shapeOf } from '../../records/fields/shape.ts'
import { readRange } from '../../records/quantity.ts'

/**
 * A value of an entry as the JSON contract has it: keys in camelCase, quantities as `{ value, unit }` and spans
 * as `{ low, high, unit }` in the program's own units, readings always as a list; dates, times and words as
 * they are written.
 * @param full what turns buckets and crates into kg
 */
export function contractForm(schema: z.ZodType, value: PlainValue, full?: FullContainers): unknown {
  const shape = shapeOf(schema)
  if (shape.kind === 'one-or-more')
    return (Array.isArray(value) ? value : [value]).map((one) => contractForm(shape.item, one, full))
  if (shape.kind === 'list' && Array.isArray(value))
    return value.map((one) => contractForm(shape.item, one, full))
  if (typeof value === 'object' && !Array.isArray(value)) {
    return Object.fromEntries(
      Object.entries(value).map(([key, inner]) => {
        if (shape.kind === 'table') return [key, contractForm(shape.value, inner, full)]
        const below = shape.kind === 'map' ? shape.keys[key] : undefined
        return [camel(key), below ? contractForm(below, inner, full) : inner]
      }),
    )
  }
  const about = shape.kind === 'value' ? shape.about : {}
  const { keeps } = about
  if (isNumeric(about) && typeof value === 'string' && !Number.isNaN(Number(value))) return Number(value)
  return keeps ? quantityForm(String(value), keeps, full) : value
}

function quantityForm(text: string, keeps: readonly string[], full?: FullContainers): unknown {
  const counted = keeps.includes('kg') ? readContainers(text) : null
  const kg = counted && weightOf(counted, full)
  if (kg !== null) return { value: kg, unit: 'kg' }
  const { range } = readRange(text, keeps)
  if (!range) return text
  const { low, high, unit } = range
  if (low !== high) return unit === '' ? { low, high } : { low, high, unit }
  return unit === '' ? low : { value: low, unit }
}

const camel = (key: string) => key.replace(/_(\w)/g, (_, letter: string) => letter.toUpperCase())
