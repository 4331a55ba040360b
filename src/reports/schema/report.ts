import * as z from 'zod'
import { MAPPING } from '../../ledger/import/mapping.ts'
import { GROWTH_STAGES } from '../../records/growth-stage.ts'
import {
  SEASON_KINDS,
  SEASONAL,
  type SeasonKind,
  SINGULAR,
  STANDING,
  STANDING_KINDS,
  type StandingKind,
  vineyard,
} from '../../records/kinds.ts'
import { addImportKeys, addTogether, type JsonSchema } from './additions.ts'
import { EXAMPLES } from './examples.ts'

/** A kind of record: its name, the files that hold it, and its schema. */
interface Kind {
  name: string
  files: readonly string[]
  schema: z.ZodType
  /** Whether a file may also hold a list of them. */
  listed: boolean
}

const KINDS: readonly Kind[] = [
  { name: 'vineyard', files: ['vineyard.yaml'], schema: vineyard(), listed: false },
  ...STANDING_KINDS.map((kind: StandingKind) => ({
    name: SINGULAR[kind],
    files: [`${kind}/*.yaml`],
    schema: STANDING[kind] as z.ZodType,
    listed: false,
  })),
  ...SEASON_KINDS.map((kind: SeasonKind) => ({
    name: SINGULAR[kind],
    files: [`seasons/*/${kind}.yaml`, `seasons/*/${kind}/*.yaml`],
    schema: SEASONAL[kind] as z.ZodType,
    listed: true,
  })),
  { name: 'mapping', files: ['*.map.yaml'], schema: MAPPING, listed: false },
]

const SCHEMA_FOLDER = '.rowbook/schema'

/** Names of the kinds of record that have a schema, with the files that hold them. */
export const SCHEMA_KINDS: readonly { name: string; files: readonly string[] }[] = KINDS

/**
 * The JSON Schema (draft 2020-12) of the files of a kind of record, made from the definitions by which ledgers
 * are read. An entry's file holds one entry or a list of them.
 * @throws RangeError where there is no such kind.
 */
export function schemaOf(name: string): JsonSchema {
  const kind = KINDS.find((one) => one.name === name)
  if (!kind) throw new RangeError(`schemaOf requires a kind of record, got ${name}`)
  const { $schema, ...record } = fromZod(kind.schema)
  addTogether(name, record)
  if (name === 'mapping') addImportKeys(record)
  const head = { $schema, title: name, examples: [EXAMPLES[name]] }
  if (!kind.listed) return { ...head, ...record }
  const entry = { $ref: '#/$defs/entry' }
  return {
    ...head,
    description: 'one entry, or a list of entries',
    anyOf: [entry, { type: 'array', items: entry }],
    $defs: { entry: record },
  }
}

/** The files by which editors know the records: a schema of each kind, and the settings that point to them. */
export function schemaFiles(): { file: string; text: string }[] {
  const mapping = Object.fromEntries(KINDS.map(({ name, files }) => [`${SCHEMA_FOLDER}/${name}.json`, files]))
  return [
    ...KINDS.map(({ name }) => ({ file: `${SCHEMA_FOLDER}/${name}.json`, text: asText(schemaOf(name)) })),
    { file: EDITOR_SETTINGS, text: asText({ 'yaml.schemas': mapping }) },
  ]
}

/** Settings of an editor that a grower may have written; they are made only where there are none. */
export const EDITOR_SETTINGS = '.vscode/settings.json'

const asText = (value: object) => `${JSON.stringify(value, null, 2)}\n`

function fromZod(schema: z.ZodType): JsonSchema {
  return z.toJSONSchema(schema, {
    io: 'input',
    override: ({ jsonSchema }) => finish(jsonSchema as JsonSchema),
  }) as JsonSchema
}

const NUMBER = '[+-]?(\\d+(\\.\\d+)?|\\.\\d+)'

/** Puts into JSON Schema what the fields say of themselves in their own words. */
function finish(at: JsonSchema): void {
  if (at.orWord !== undefined) {
    const { orWord, ...rest } = at
    for (const key of Object.keys(at)) delete at[key]
    at.anyOf = [{ const: orWord }, rest]
    return
  }
  const { oneOrMore, keeps } = at as { oneOrMore?: z.ZodType; keeps?: readonly string[] }
  delete at.oneOrMore
  delete at.keeps
  if (Array.isArray(at.examples) && at.examples.length === 0) delete at.examples
  if (oneOrMore) {
    const { $schema: _, ...inner } = fromZod(oneOrMore)
    at.anyOf = [inner, { type: 'array', items: inner, minItems: 1 }]
  }
  if (keeps && !keeps.includes(''))
    at.pattern = `^\\s*${NUMBER}(\\s*(-|–|to)\\s*${NUMBER})?\\s*[^\\d\\s.,+-].*$`
  if (at.format === 'date') at.pattern = '^\\d{4}-\\d{2}-\\d{2}$'
  if (isStageList(at.enum)) {
    const codes = [...GROWTH_STAGES].map(([code, description]) => ({ const: code, description }))
    const words = {
      type: 'string',
      pattern: '[A-Za-z]',
      description: '`E-L 25`, or words like `50 % veraison`',
    }
    at.oneOf = [...codes, words]
    delete at.enum
    delete at.type
  }
  // A text may look like a number: YAML then has one, and the ledger reads its digits.
  if (at.type === 'string' && !at.pattern && !at.enum) at.type = ['string', 'number']
}

const isStageList = (words: unknown) => Array.isArray(words) && words.length === GROWTH_STAGES.size
