import { readdirSync, readFileSync } from 'node:fs'
import { join } from 'node:path'
import { expect, test } from 'vitest'
import { everything } from '../../src/reports/explain/everything.ts'
import { lookAt, smallBook } from './book.ts'
import { PROJECT } from './processes.ts'

// Every finding is raised by some test; these are the ones that no other test raises.

const LEFT: readonly [name: string, file: string, text: string, at: string][] = [
  ['text-too-long', 'sprayers/mounted.yaml', `name: ${'x'.repeat(1001)}\ntank: 200 L\n`, 'xx'],
  ['line-break', 'seasons/2026/work.yaml', '- { date: 2026-06-14, block: upper, job: "a\\nb" }\n', 'job'],
  [
    'unknown-word',
    'varieties/palava.yaml',
    'name: Palava\ncolour: green\nharvest: { sugar: 19-21 Brix }\n',
    'green',
  ],
  [
    'not-a-price',
    'products/sulphur.yaml',
    'name: S\nform: WG\nkind: fungicide\nactives: [ { name: sulphur, content: 800 g/kg, group: M02 } ]\nuses:\n  - { against: powdery, rate: 2-6 kg/ha }\nprice: dear\n',
    'price',
  ],
  [
    'unknown-formulation',
    'products/sulphur.yaml',
    'name: S\nform: XQ\nkind: fungicide\nactives: [ { name: sulphur, content: 800 g/kg, group: M02 } ]\nuses:\n  - { against: powdery, rate: 2-6 kg/ha }\n',
    'form',
  ],
  [
    'two-measures',
    'seasons/2026/samples.yaml',
    '- { date: 2026-09-02, block: upper, berries: 100, brix: 17.6, oechsle: 72 }\n',
    'oechsle',
  ],
  [
    'unknown-variety',
    'blocks/upper.yaml',
    'name: Upper\nvariety: palva\nrows: 20\nrow_length: 100 m\nrow_spacing: 2 m\nvine_spacing: 1 m\n',
    'palva',
  ],
  [
    'line-break',
    'seasons/2026/samples.yaml',
    '- { date: 2026-09-02, block: upper, brix: 17.6, who: "A\\nB" }\n',
    'who',
  ],
  [
    'day-twice',
    'seasons/2026/weather.csv',
    'date,min_c,max_c,rain_mm\n2026-06-14,10,20,0\n2026-06-14,11,21,0\n',
    '11,21',
  ],
]

test.each(LEFT)('%s is raised at its place', (name, file, text, at) => {
  const columns: Record<string, string> =
    name === 'day-twice'
      ? {
          'vineyard.yaml':
            'name: T\nlatitude: 51.5\ntimezone: Europe/Berlin\nweather: { columns: { time: date, min: min_c, max: max_c, rain: rain_mm } }\n',
        }
      : {}
  const { findings } = lookAt(smallBook({ ...columns, [file]: text }))
  const lines = findings.filter((one) => one.name === name && one.file === file).map(({ line }) => line)
  expect(lines).toContain(text.split('\n').findIndex((line) => line.includes(at)) + 1)
})

test('every finding that `explain` knows is expected by some test', () => {
  const tests = readdirSync(join(PROJECT, 'tests'), { recursive: true, encoding: 'utf8' })
    .filter(
      (file) => file.endsWith('.ts') && !/explain|every-finding/.test(file) && !file.startsWith('bench'),
    )
    .map((file) => readFileSync(join(PROJECT, 'tests', file), 'utf8'))
    .concat(LEFT.map(([name]) => `'${name}'`))
    .join('\n')
  const findings = everything().filter(({ kind }) => kind === 'finding')
  expect(findings.length).toBeGreaterThan(90)
  expect(findings.filter(({ name }) => !new RegExp(`['" ]${name}['"]`).test(tests))).toEqual([])
})
