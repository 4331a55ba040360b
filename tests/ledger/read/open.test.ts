import { execFileSync } from 'node:child_process'
import { mkdirSync, symlinkSync, writeFileSync } from 'node:fs'
import { join } from 'node:path'
import { describe, expect, test } from 'vitest'
import { findLedger, NoLedger } from '../../../src/ledger/read/find.ts'
import type { Need } from '../../../src/ledger/read/ledger.ts'
import { isBroken, openLedger } from '../../../src/ledger/read/open.ts'
import { placeOf } from '../../../src/ledger/read/source.ts'
import { makeLedger } from '../make.ts'

const SPRAY =
  'date: 2026-06-14\nblocks: [upper]\nwater: 300 L/ha\nproducts:\n  - { product: sulphur, rate: 3 kg/ha, for: powdery }\n'
const ALL: Need = { seasons: 'all' }
const open = (files: Record<string, string | null>, need = ALL) => openLedger(makeLedger(files), need)
const names = (files: Record<string, string | null>) =>
  open(files).findings.map(({ name, file, line }) => [name, file, line])

describe('reading a ledger', () => {
  test('records in both forms are read side by side, each with its place', () => {
    const ledger = open({
      'seasons/2026/sprays/2026-06-14-upper.yaml': SPRAY,
      'seasons/2026/sprays.yaml': SPRAY.replace('2026-06-14', '2026-05-30')
        .replace(/^/gm, '  ')
        .replace('  date', '- date'),
    })
    expect(ledger.findings).toEqual([])
    expect(ledger.sprays.map(({ date }) => date)).toEqual(['2026-05-30', '2026-06-14'])
    const late = ledger.sprays[1]!
    expect(placeOf(late.source, ['products', 0, 'rate'])).toMatchObject({
      file: 'seasons/2026/sprays/2026-06-14-upper.yaml',
      line: 5,
      column: 31,
      length: 7,
    })
    expect(late.products[0]).toMatchObject({
      product: 'sulphur',
      rate: { value: 3, unit: 'kg/ha' },
      for: ['powdery'],
    })
  })

  test('only the seasons needed are read', () => {
    const files = {
      'seasons/2026/sprays.yaml': `- ${SPRAY.replace(/\n(?=.)/g, '\n  ')}`,
      'seasons/2025/sprays.yaml': '- { broken',
      'seasons/2025/picks.yaml': '- { date: 2025-09-20, block: upper, weight: 10 kg }',
    }
    expect(open(files, { seasons: [2026] }).findings).toEqual([])
    expect(open(files, { seasons: [2026], kinds: ['sprays'], history: ['picks'] }).picks).toHaveLength(1)
    expect(isBroken(open(files, { seasons: [2026], history: ['sprays'] }))).toBe(true)
  })
})

describe('findings', () => {
  test.each<[string, Record<string, string | null>, [string, string, number]]>([
    [
      'an unknown block',
      { 'seasons/2026/sprays.yaml': `- ${SPRAY.replace('[upper]', '[uper]').replace(/\n(?=.)/g, '\n  ')}` },
      ['unknown-block', 'seasons/2026/sprays.yaml', 2],
    ],
    [
      'an unknown product',
      { 'seasons/2026/sprays/a.yaml': SPRAY.replace('product: sulphur', 'product: sulfur') },
      ['unknown-product', 'seasons/2026/sprays/a.yaml', 5],
    ],
    [
      'a date of another season',
      { 'seasons/2025/sprays/a.yaml': SPRAY },
      ['wrong-season', 'seasons/2025/sprays/a.yaml', 1],
    ],
    [
      'an empty file',
      { 'seasons/2026/sprays/a.yaml': '# nothing yet\n' },
      ['empty-file', 'seasons/2026/sprays/a.yaml', 1],
    ],
    [
      'a file that is no entry',
      { 'seasons/2026/sprays/a.yaml': 'hello' },
      ['wrong-type', 'seasons/2026/sprays/a.yaml', 1],
    ],
    [
      'a folder that is misspelt',
      { 'seasons/2026/spary/a.yaml': SPRAY },
      ['stray-file', 'seasons/2026/spary', 1],
    ],
    ['a file that ends in yml', { 'blocks/other.yml': 'name: x' }, ['stray-file', 'blocks/other.yml', 1]],
    [
      'a file name that is no id',
      { 'blocks/Other Block.yaml': 'name: x' },
      ['bad-id', 'blocks/Other Block.yaml', 1],
    ],
    [
      'an outline outside the ledger',
      {
        'blocks/lower.yaml':
          'name: L\nvariety: palava\nrows: 1\nrow_length: 9 m\nrow_spacing: 2 m\nvine_spacing: 1 m\nboundary: ../../etc/passwd\n',
      },
      ['unknown-file', 'blocks/lower.yaml', 7],
    ],
    [
      'a broken site, once',
      { 'vineyard.yaml': 'name: x\nlatitude: 151\ntimezone: Europe/Berlin\n' },
      ['impossible-value', 'vineyard.yaml', 2],
    ],
    [
      'a block without a size',
      { 'blocks/lower.yaml': 'name: L\nvariety: palava\nrow_spacing: 2 m\nvine_spacing: 1 m\n' },
      ['missing-key', 'blocks/lower.yaml', 1],
    ],
  ])('%s', (_, files, finding) => expect(names(files)).toEqual([finding]))

  test('all of them in one run', () => {
    const spray = SPRAY.replace('3 kg/ha', '3').replace('[upper]', '[nowhere]').replace('water', 'watr')
    expect(names({ 'seasons/2026/sprays/a.yaml': spray, 'seasons/2026/picks.yaml': '- { date: 2026-09-01 }' }).map(([name]) => name).sort()).toEqual([
      'missing-key', 'missing-key', 'needs-unit', 'unknown-key',
    ]) // biome-ignore format: a list of names
  })

  test('for a mistyped key or id, the right one is proposed', () => {
    expect(open({ 'seasons/2026/sprays/a.yaml': `${SPRAY}opperator: A.\n` }).findings[0]!.help).toContain(
      'operator',
    )
    expect(
      open({ 'seasons/2026/sprays/a.yaml': SPRAY.replace('[upper]', '[uper]') }).findings[0]!.help,
    ).toContain('upper')
  })
})

describe('what is not a plain file', () => {
  test('links, pipes and folders named like records are refused, and nothing outside is read', () => {
    const root = makeLedger({ '../outside.yaml': null })
    writeFileSync(join(root, '..', 'rowbook-outside.yaml'), 'name: secret\n')
    symlinkSync(join(root, '..', 'rowbook-outside.yaml'), join(root, 'blocks', 'linked.yaml'))
    symlinkSync('/', join(root, 'seasons'))
    mkdirSync(join(root, 'varieties', 'folder.yaml'))
    execFileSync('mkfifo', [join(root, 'products', 'pipe.yaml')])
    const found = openLedger(root, ALL).findings.map(({ name, file }) => [name, file])
    expect(found).toContainEqual(['not-a-plain-file', 'blocks/linked.yaml'])
    expect(found).toContainEqual(['not-a-plain-file', 'products/pipe.yaml'])
    expect(found).toContainEqual(['stray-file', 'varieties/folder.yaml'])
    expect(openLedger(root, ALL).seasons).toEqual([])
  })

  test('wrong encodings are reported', () => {
    const root = makeLedger()
    writeFileSync(join(root, 'blocks', 'latin.yaml'), Buffer.from([0x6e, 0x61, 0x6d, 0x65, 0x3a, 0x20, 0xe9]))
    writeFileSync(join(root, 'blocks', 'wide.yaml'), Buffer.from('\ufeffname: x', 'utf16le'))
    expect(openLedger(root, ALL).findings.filter(({ name }) => name === 'not-utf8')).toHaveLength(2)
  })
})

describe('finding the folder', () => {
  test('the nearest parent with a vineyard.yaml', () => {
    const root = makeLedger({ 'seasons/2026/sprays/a.yaml': SPRAY })
    expect(findLedger(join(root, 'seasons/2026/sprays'))).toBe(findLedger('/', root))
  })

  test('none at all', () => {
    expect(() => findLedger('/')).toThrow(NoLedger)
    expect(() => findLedger('/', '/nowhere')).toThrow(NoLedger)
  })
})
