import { IMPORT_KINDS, importFields } from '../../ledger/import/mapping.ts'
import type { JsonSchema } from './json-schema.ts'

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
