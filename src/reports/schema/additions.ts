import { IMPORT_KINDS, importFields } from '../../ledger/import/mapping.ts'

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

/** A JSON Schema, draft 2020-12. */
export type JsonSchema = Record<string, unknown>

const WORDS = {
  type: 'object',
  additionalProperties: { type: ['string', 'number', 'boolean', 'array'], items: { type: 'string' } },
}
const CONSTANT = { type: ['string', 'number', 'boolean'] }

/** What a mapping's parts are, and what each key of them takes. */
const PARTS: Readonly<Record<string, { description: string; takes: JsonSchema }>> = {
  columns: { description: 'which column of the file is which key', takes: { type: 'string' } },
  units: { description: 'unit of a column whose cells have none', takes: { type: 'string' } },
  words: {
    description: 'what words in a column mean; for blocks one id, several, or `all`',
    takes: WORDS,
  },
  constants: { description: 'values for every row', takes: CONSTANT },
}

/** Names in the schema of a mapping the keys of the entries that a spreadsheet can bring, with what each holds. */
export function addImportKeys(schema: JsonSchema): void {
  const properties = schema.properties as Record<string, JsonSchema>
  for (const [part, { description, takes }] of Object.entries(PARTS))
    properties[part] = { type: 'object', description, additionalProperties: false, properties: keys(takes) }
}

function keys(takes: JsonSchema): Record<string, JsonSchema> {
  const made: Record<string, JsonSchema> = {}
  for (const kind of IMPORT_KINDS)
    for (const { key, about } of importFields(kind).values())
      made[key] = { ...takes, description: `${kind}: ${about.description ?? key}` }
  return made
}
