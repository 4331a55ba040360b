import { mkdirSync, mkdtempSync, readdirSync, readFileSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { dirname, join } from 'node:path'
import { DuckDBInstance } from '@duckdb/node-api'
import { parse } from 'csv-parse/sync'
import { beforeAll, describe, expect, test } from 'vitest'
import { exportCommand } from '../../src/commands/export.ts'
import { SEASONAL, STANDING } from '../../src/records/kinds.ts'
import { TABLES } from '../../src/reports/export/tables.ts'
import { spray } from '../ledger/git-book.ts'
import { makeLedger, SITE } from '../ledger/make.ts'
import { run } from './run.ts'

const MEMBERS = 200
const BROKEN = 17

const rate = (member: number, season: number) => 0.5 + ((member * 7 + season) % 15) / 10

/** Invented members: two blocks, two seasons, copper on the upper block only. */
function makeMembers(): string {
  const folder = mkdtempSync(join(tmpdir(), 'rowbook-members-'))
  for (let member = 0; member < MEMBERS; member += 1) {
    const files: Record<string, string> = { ...SITE }
    for (const season of [2025, 2026]) {
      const copper = spray(`${season}-06-14`, 'upper', 'copper', `${rate(member, season)} kg/ha`)
      files[`seasons/${season}/sprays/a.yaml`] = copper
      files[`seasons/${season}/sprays/b.yaml`] = copper.replace('-06-14', '-06-28')
      files[`seasons/${season}/sprays/c.yaml`] = spray(`${season}-06-20`, 'lower')
    }
    if (member === BROKEN) files['seasons/2026/sprays/d.yaml'] = 'date: 2026-06-31\n'
    for (const [file, text] of Object.entries(files)) {
      const path = join(folder, `member-${String(member).padStart(3, '0')}`, file)
      mkdirSync(dirname(path), { recursive: true })
      writeFileSync(path, text)
    }
  }
  return folder
}

describe('many books', () => {
  let members: string
  beforeAll(() => {
    members = makeMembers()
  })

  test.each(['csv', 'jsonl'])(
    'DuckDB answers copper for each hectare by season and member from %s',
    async (format) => {
      const to = mkdtempSync(join(tmpdir(), 'rowbook-tables-'))
      // A heap that holds a few ledgers and never all of them.
      const heap = { NODE_OPTIONS: '--max-old-space-size=64' }
      const { status, stdout, stderr } = run(
        ['export', '--ledgers', members, '--to', to, '--format', format],
        { env: heap },
      )
      expect([status, stdout]).toEqual([1, ''])
      expect(stderr).toContain('left out: member-017: seasons/2026/sprays/d.yaml:1 missing-key')
      expect(stderr).toContain('199 of 200 ledgers')

      const types = JSON.parse(readFileSync(join(to, 'tables.json'), 'utf8')) as Record<
        string,
        Record<string, string>
      >
      const sql = {
        text: 'VARCHAR',
        number: 'DOUBLE',
        integer: 'INTEGER',
        date: 'DATE',
        boolean: 'BOOLEAN',
        json: 'JSON',
      }
      const reader = format === 'csv' ? 'read_csv' : 'read_json'
      const connection = await (await DuckDBInstance.create(':memory:')).connect()
      for (const [name, columns] of Object.entries(types)) {
        const spec = Object.entries(columns).map(
          ([column, type]) => `'${column}': '${sql[type as keyof typeof sql]}'`,
        )
        const header = format === 'csv' ? ', header = true' : ''
        await connection.run(
          `create table "${name}" as select * from ${reader}('${join(to, `${name}.${format}`)}', columns = { ${spec.join(', ')} }${header})`,
        )
      }
      const answer = await connection.runAndReadAll(`
      select ledger, season, sum(copper_kg) / any_value(hectares) as copper_kg_per_ha
      from applications
      join (select ledger, sum(area_ha) as hectares from blocks group by ledger) using (ledger)
      group by ledger, season
      order by ledger, season`)
      const rows = answer.getRowObjectsJson() as {
        ledger: string
        season: number
        copper_kg_per_ha: number
      }[]
      expect(rows).toHaveLength((MEMBERS - 1) * 2)
      for (const { ledger, season, copper_kg_per_ha } of rows) {
        const member = Number(ledger.slice(-3))
        // Two sprays of 35 % copper on 0.4 of 0.5 ha, all in kg for each ha of both blocks.
        expect(copper_kg_per_ha).toBeCloseTo((2 * rate(member, season) * 0.35 * 0.4) / 0.5, 9)
      }
      if (format === 'csv') {
        const query = /```sql\n(select ledger[^`]+)```/.exec(readFileSync('DEVELOPERS.md', 'utf8'))![1]!
        const shown = await connection.runAndReadAll(
          `${query.replaceAll('TABLES/', `${to}/`)} order by ledger, season`,
        )
        const same = (
          shown.getRowObjectsJson() as ((typeof rows)[number] & { of_unknown_dose: string })[]
        ).map(({ of_unknown_dose, ...row }) => {
          expect(Number(of_unknown_dose)).toBe(0)
          return { ...row, season: Number(row.season) }
        })
        expect(same).toHaveLength(rows.length)
        for (const [index, row] of same.entries()) {
          expect([row.ledger, row.season]).toEqual([rows[index]!.ledger, Number(rows[index]!.season)])
          expect(row.copper_kg_per_ha).toBeCloseTo(rows[index]!.copper_kg_per_ha, 9)
        }
      }
      const members16 = await connection.runAndReadAll(`select count(distinct ledger) as n from sprays`)
      expect(Number(members16.getRowObjectsJson()[0]!.n)).toBe(MEMBERS - 1)
    },
    300_000,
  )

  test('an existing table is not overwritten', () => {
    const to = mkdtempSync(join(tmpdir(), 'rowbook-tables-'))
    writeFileSync(join(to, 'blocks.csv'), 'mine')
    const { status, stderr } = run(['export', '--ledgers', members, '--to', to])
    expect([status, stderr.includes('already')]).toEqual([2, true])
    expect([readFileSync(join(to, 'blocks.csv'), 'utf8'), readdirSync(to)]).toEqual(['mine', ['blocks.csv']])
  })
})

describe('columns', () => {
  test('every kind of record has a table, and every key of it a column', () => {
    const renamed: Record<string, string[]> = {
      sprays: ['products', 'weather', 'time'],
      scouting: ['looked_at', 'found'],
      products: ['authorisation', 'actives', 'rain', 'name'],
      blocks: ['canopy', 'targets'],
      varieties: ['targets'],
    }
    for (const [kind, schema] of Object.entries({ ...STANDING, ...SEASONAL })) {
      const columns = TABLES.get(kind)!.columns.map(({ name }) => name)
      for (const key of Object.keys(schema.shape)) {
        if (renamed[kind]?.includes(key)) continue
        expect(
          columns.some((name) => name === key || name.startsWith(`${key}_`)),
          `${kind}.${key}`,
        ).toBe(true)
      }
      expect(new Set(columns).size).toBe(columns.length)
    }
  })

  test('the same in a ledger that has nothing and in one that has much', () => {
    const bare = run(['export', 'samples', '--ledger', makeLedger()]).stdout
    const full = run([
      'export',
      'samples',
      '--ledger',
      makeLedger({ 'seasons/2026/samples/a.yaml': 'date: 2026-09-01\nblock: upper\nbrix: [18.5, 19.5]\n' }),
    ]).stdout
    expect(full.split('\r\n')[0]).toBe(bare.split('\r\n')[0])
    const [row] = parse(full, { columns: true, record_delimiter: '\r\n' }) as Record<string, string>[]
    expect(row).toMatchObject({
      brix: '19',
      brix_readings: '[18.5,19.5]',
      date: '2026-09-01',
      season: '2026',
    })
  })
})

test.each([
  [['export', '--ledger', '.', 'blocks'], 'upper'],
  [['export', '--ledger', '.', '--block', 'lower', 'totals.blocks.products'], 'sulphur'],
  [['note', '--block', 'lower', 'stage', '--stage', '9', '--as-of', '2026-05-01', '--dry-run'], 'stage: 9'],
])(
  'an option that takes several values leaves the word alone that the command is about: %j',
  (argv, said) => {
    const root = makeLedger({ 'seasons/2026/sprays/a.yaml': spray('2026-06-20', 'lower') })
    const { status, stdout, stderr } = run(argv, { cwd: root })
    expect([status, stderr]).toEqual([0, ''])
    expect(stdout).toContain(said)
  },
)

test('the words that `export` takes are its tables and reports', async () => {
  const { choices } = exportCommand.arguments![0]!
  expect([...TABLES.keys()].filter((name) => !choices!.includes(name))).toEqual([])
})

describe('a report as a table', () => {
  const root = () =>
    makeLedger({ 'seasons/2026/sprays/a.yaml': spray('2026-06-14', 'upper', 'copper', '2 kg/ha') })

  test('its first list, or the one named; rows carry what stands above them', () => {
    const { status, stdout } = run([
      'export',
      'totals.blocks.products',
      '--ledger',
      root(),
      '--as-of',
      '2026-09-01',
    ])
    expect(status).toBe(0)
    const rows = parse(stdout, { columns: true, record_delimiter: '\r\n' }) as Record<string, string>[]
    expect(rows[0]).toMatchObject({ block: 'upper', product: 'copper', total_unit: 'kg' })
    expect(Number(rows[0]!.total)).toBeCloseTo(0.8, 12)
  })

  test.each([['nonsense'], ['totals.nonsense'], ['check']])('%s: what there is instead', (what) => {
    const { status, stderr } = run(['export', what, '--ledger', root(), '--as-of', '2026-09-01'])
    expect([status, stderr.includes('totals')]).toEqual([2, true])
  })
})

test('text that a spreadsheet could run is defused in CSV and left alone in JSON Lines', () => {
  const root = makeLedger({
    'blocks/upper.yaml': SITE['blocks/upper.yaml']!.replace('name: Upper', 'name: "=cmd()"'),
  })
  expect(run(['export', 'blocks', '--ledger', root]).stdout).toContain("'=cmd()")
  const lines = run(['export', 'blocks', '--ledger', root, '--format', 'jsonl']).stdout.trim().split('\n')
  expect(lines.map((line) => JSON.parse(line).name)).toContain('=cmd()')
})
