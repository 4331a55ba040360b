import type { JsonSchema } from './json-schema.ts'

const anyOf = (...keys: string[][]): JsonSchema => ({ anyOf: keys.map((required) => ({ required })) })
const oneOf = (...keys: string[]): JsonSchema => ({ oneOf: keys.map((key) => ({ required: [key] })) })

const SUGARS = ['brix', 'oechsle', 'baume', 'density']
const MEASURED = [...SUGARS, 'ph', 'ta', 'titration', 'berry_weight', 'seeds', 'skins', 'taste']

/**
 * Adds what a record must hold of several fields together, which the fields' own schemas can't say: the same
 * rules as in the records' `superRefine`, and a test holds the two against each other.
 */
export function addTogether(name: string, schema: JsonSchema): void {
  const below = (key: string) => (schema.properties as Record<string, { items: JsonSchema }>)[key]!.items
  if (name === 'block') Object.assign(schema, anyOf(['area'], ['rows', 'row_length'], ['vines']))
  if (name === 'product') Object.assign(below('uses'), anyOf(['rate'], ['concentration']))
  if (name === 'crop') Object.assign(schema, anyOf(['bunches_per_vine'], ['bunch_weight']))
  if (name === 'sample') {
    Object.assign(schema, anyOf(...MEASURED.map((key) => [key])), {
      allOf: [
        ...pairs(SUGARS).map((required) => ({ not: { required } })),
        { not: { required: ['ta', 'titration'] } },
      ],
    })
  }
  if (name === 'spray') {
    Object.assign(below('products'), oneOf('rate', 'amount', 'concentration'))
    Object.assign(schema, {
      if: { properties: { products: { contains: { required: ['concentration'] } } }, required: ['products'] },
      // biome-ignore lint/suspicious/noThenProperty: the keyword of JSON Schema is called so
      then: { required: ['water'] },
    })
  }
}

function pairs(words: readonly string[]): string[][] {
  return words.flatMap((first, index) => words.slice(index + 1).map((second) => [first, second]))
}
