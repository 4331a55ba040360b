import { existsSync, readdirSync, readFileSync } from 'node:fs'
import { join } from 'node:path'
import Ajv2020, { type ValidateFunction } from 'ajv/dist/2020.js'
import { describe, expect, it } from 'vitest'
import { parse } from 'yaml'
import { MAPPING } from '../../../src/ledger/import/mapping.ts'
import { SEASONAL, SINGULAR, STANDING, vineyard } from '../../../src/records/kinds.ts'
import { EXAMPLES } from '../../../src/reports/schema/examples.ts'
import { SCHEMA_KINDS, schemaFiles, schemaOf } from '../../../src/reports/schema/report.ts'

/** The independent judge: ajv, draft 2020-12, strict about keywords that it doesn't know. */
const ajv = new Ajv2020({
  strict: true,
  strictTypes: false,
  strictRequired: false,
  allErrors: true,
  formats: { date: true },
})
const judges = new Map<string, ValidateFunction>(
  SCHEMA_KINDS.map(({ name }) => [name, ajv.compile(schemaOf(name))]),
)

const ZOD = new Map<string, { safeParse(value: unknown): { success: boolean } }>([
  ['vineyard', vineyard()],
  ['mapping', MAPPING],
  ...Object.entries({ ...STANDING, ...SEASONAL }).map(
    ([kind, schema]) => [SINGULAR[kind as keyof typeof SINGULAR], schema] as const,
  ),
])

function faults(name: string, value: unknown): string[] {
  const judge = judges.get(name)!
  return judge(value) ? [] : (judge.errors ?? []).map((error) => `${error.instancePath} ${error.message}`)
}

/** A kind's name from a file's place in a ledger, or null. */
function kindOfFile(file: string): string | null {
  if (file === 'vineyard.yaml') return 'vineyard'
  const standing = /^(blocks|varieties|products|sprayers)\//.exec(file)?.[1]
  const seasonal = /^seasons\/\d{4}\/(\w+)(?:\.yaml|\/)/.exec(file)?.[1]
  const kind = standing ?? seasonal
  return kind ? SINGULAR[kind as keyof typeof SINGULAR] : null
}

describe('the schema of a mapping', () => {
  const example = EXAMPLES.mapping as { columns: Record<string, string> }

  it('knows the keys that each kind of entry may get from a column, and refuses others', () => {
    for (const key of ['weather.wind', 'rate', 'brix', 'weight'])
      expect(faults('mapping', { columns: { [key]: 'X' } })).toEqual([])
    expect(faults('mapping', { ...example, columns: { dat: 'Day' } })).not.toEqual([])
    expect(faults('mapping', { ...example, decimal: 'dot' })).not.toEqual([])
  })
})

describe('the JSON Schemas', () => {
  for (const { name } of SCHEMA_KINDS) {
    it(`take the example of a ${name}, as the ledger does, and a list of them where a file may hold one`, () => {
      const example = EXAMPLES[name]!
      expect(ZOD.get(name)!.safeParse(example).success).toBe(true)
      expect(faults(name, example)).toEqual([])
      const listed =
        name in Object.fromEntries(Object.keys(SEASONAL).map((kind) => [SINGULAR[kind as 'sprays'], 1]))
      expect(faults(name, [example, example]).length === 0).toBe(listed)
    })

    it(`refuse a ${name} with an unknown key, or without a key that it must have`, () => {
      const example = EXAMPLES[name]! as Record<string, unknown>
      expect(faults(name, { ...example, colur: 'x' })).not.toEqual([])
      for (const key of Object.keys(example)) {
        const { [key]: _, ...rest } = example
        expect(faults(name, rest).length === 0, `without ${key}`).toBe(ZOD.get(name)!.safeParse(rest).success)
      }
    })

    it(`says what each field of a ${name} is, and leaves none of its own marks behind`, () => {
      const text = JSON.stringify(schemaOf(name))
      expect(text).not.toMatch(/"(oneOrMore|keeps)"/)
      expect(text).toContain('"description"')
    })
  }

  it('refuse what a grower mistypes', () => {
    const spray = EXAMPLES.spray as Record<string, unknown>
    const sample = EXAMPLES.sample as Record<string, unknown>
    const wrong: [string, unknown][] = [
      ['spray', { ...spray, water: 300 }],
      ['spray', { ...spray, water: '2,5 L/ha' }],
      ['spray', { ...spray, stage: 66.5 }],
      ['spray', { ...spray, stage: 82 }],
      ['spray', { ...spray, date: '14.16.2026' }],
      ['spray', { ...spray, blocks: [] }],
      ['spray', { ...spray, products: [] }],
      ['spray', { ...spray, products: [{ product: 'sulphur-80' }] }],
      ['spray', { ...spray, products: [{ product: 'sulphur-80', rate: '3 kg/ha', amount: '1 kg' }] }],
      ['spray', { ...spray, water: undefined, products: [{ product: 'x', concentration: '3 g/L' }] }],
      ['sample', { date: '2026-09-12', block: 'upper' }],
      ['sample', { ...sample, brix: '19.6 Brix' }],
      ['sample', { ...sample, oechsle: 85 }],
      ['stage', { ...EXAMPLES.stage, block: 'Top Terrace' }],
      ['block', { ...EXAMPLES.block, rows: 2.5 }],
      ['product', { ...EXAMPLES.product, uses: [{ against: 'powdery' }] }],
    ]
    for (const [name, value] of wrong) {
      const plain = JSON.parse(JSON.stringify(value))
      expect(faults(name, plain), JSON.stringify(value)).not.toEqual([])
      expect(ZOD.get(name)!.safeParse(plain).success, JSON.stringify(value)).toBe(false)
    }
  })

  for (const ledger of ['examples/far-quillet', '../shared/mistakes/clean']) {
    it.skipIf(!existsSync(ledger))(`take every record of ${ledger}`, () => {
      let files = 0
      for (const file of readdirSync(ledger, { recursive: true, encoding: 'utf8' })) {
        const kind = file.endsWith('.yaml') ? kindOfFile(file) : null
        if (!kind) continue
        files += 1
        expect(faults(kind, parse(readFileSync(join(ledger, file), 'utf8'))), file).toEqual([])
      }
      expect(files).toBeGreaterThan(10)
    })
  }

  it('are laid out for editors, each with the files that it is for', () => {
    const files = schemaFiles()
    expect(files.map(({ file }) => file)).toContain('.rowbook/schema/spray.json')
    const settings = JSON.parse(files.find(({ file }) => file === '.vscode/settings.json')!.text)
    expect(settings['yaml.schemas']['.rowbook/schema/spray.json']).toEqual([
      'seasons/*/sprays.yaml',
      'seasons/*/sprays/*.yaml',
    ])
    expect(Object.keys(settings['yaml.schemas'])).toHaveLength(14)
  })
})
