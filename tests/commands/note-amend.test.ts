import { execFileSync } from 'node:child_process'
import { existsSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs'
import { join } from 'node:path'
import { describe, expect, it, test } from 'vitest'
import { makeLedger } from '../ledger/make.ts'
import { flat, run, runJson } from './run.ts'

const PICKS = 'seasons/2026/picks'
const FILE = `${PICKS}/2026-09-29-upper.yaml`
const LIST = 'seasons/2026/samples.yaml'
const SAMPLES =
  '# the fridge\n- { date: 2026-09-01, block: upper, berries: 100, brix: 18.20 } # cloudy\n- date: 2026-09-08\n  block: upper\n  berries: 100\n  brix: 19.4\n'

function book(files: Record<string, string> = {}) {
  const root = makeLedger(files)
  const rowbook = (...args: string[]) => run([...args, '--as-of', '2026-10-01'], { cwd: root })
  const text = (file: string) => readFileSync(join(root, file), 'utf8')
  return { root, rowbook, text }
}

const pick = [
  'note',
  'pick',
  '--block',
  'upper',
  '--date',
  '2026-09-29',
  '--weight',
  '1820 kg',
  '--people',
  '6',
]

describe('note --amend', () => {
  it('changes the named fields of the last entry, and undo brings the old ones back', () => {
    const { root, rowbook, text } = book()
    rowbook(...pick)
    const before = text(FILE)
    const { status, stdout } = rowbook(
      'note',
      '--amend',
      'last',
      '--weight',
      '1280 kg',
      '--note',
      'scale read wrong',
    )
    expect(status).toBe(0)
    expect(stdout).toContain(`Changed: ${FILE}`)
    expect(stdout).toContain('- weight: 1820 kg')
    expect(stdout).toContain('+ weight: 1280 kg')
    expect(stdout).toContain('.rowbook/kept/2026-picks-2026-09-29-upper.yaml')
    expect(text(FILE)).toBe(`${before.replace('1820', '1280')}note: scale read wrong\n`)
    expect(text('.rowbook/kept/2026-picks-2026-09-29-upper.yaml')).toBe(before)
    expect(rowbook('note', '--undo').status).toBe(0)
    expect(text(FILE)).toBe(before)
    expect(existsSync(join(root, '.rowbook/kept/.gitignore'))).toBe(true)
  })
  it('changes an entry of a list by its line, and keeps comments and the other entries', () => {
    const { rowbook, text } = book({ [LIST]: SAMPLES })
    const several = rowbook('note', '--amend', LIST, '--brix', '18.6')
    expect(several).toMatchObject({ status: 2 })
    expect(flat(several.stderr)).toContain(`say which by its line: ${LIST}:2, ${LIST}:3`)
    expect(rowbook('note', '--amend', `${LIST}:2`, '--brix', '18.6', '--ph', '3.05').status).toBe(0)
    expect(text(LIST)).toBe(SAMPLES.replace('18.20 }', '18.6, ph: 3.05 }'))
    expect(rowbook('note', '--amend', `${LIST}:5`, '--berries', '').status).toBe(0)
    expect(text(LIST)).not.toContain('  berries: 100')
  })
  it('takes finds and products one by one: what is not named stays', () => {
    const { rowbook, text } = book({
      'seasons/2026/scouting/a.yaml':
        'date: 2026-07-01\nblock: upper\nlooked_at: { bunches: 50, leaves: 20 }\nfound: { powdery: { bunches: 2 }, downy: { leaves: 0 } }\n',
      'seasons/2026/sprays/a.yaml':
        'date: 2026-06-14\nblocks: [upper]\nwater: 300 L/ha\nproducts:\n  - { product: sulphur, rate: 3 kg/ha, for: powdery }\n  - { product: copper, rate: 1 kg/ha }\n',
    })
    rowbook('note', '--amend', 'seasons/2026/scouting/a.yaml', '--found', 'powdery.bunches=3')
    expect(text('seasons/2026/scouting/a.yaml')).toContain(
      'found: { powdery: { bunches: 3 }, downy: { leaves: 0 } }',
    )
    rowbook('note', '--amend', 'seasons/2026/scouting/a.yaml', '--found', 'powdery 4 of 50')
    expect(text('seasons/2026/scouting/a.yaml')).toContain(
      'found: { powdery: { bunches: 4 }, downy: { leaves: 0 } }',
    )
    rowbook('note', '--amend', 'seasons/2026/sprays/a.yaml', '--product', 'sulphur=2.5kg/ha')
    expect(text('seasons/2026/sprays/a.yaml')).toContain(
      '{ product: sulphur, rate: 2.5 kg/ha, for: powdery }\n  - { product: copper',
    )
    rowbook('note', '--amend', 'seasons/2026/sprays/a.yaml', '--product', 'copper=none')
    expect(text('seasons/2026/sprays/a.yaml')).not.toContain('copper')
  })
  it('is shown by changes, and says nothing changed where it says so already', () => {
    const { root, rowbook } = book()
    const git = (...args: string[]) =>
      execFileSync('git', ['-c', 'user.email=a@b.c', '-c', 'user.name=a', ...args], { cwd: root })
    git('init', '-q')
    rowbook(...pick)
    git('add', '-A')
    git('commit', '-qm', 'a')
    rowbook('note', '--amend', 'last', '--weight', '1280 kg')
    expect(rowbook('changes').stdout).toMatch(/weight: 1.?820 kg -> 1.?280 kg/)
    expect(git('status', '--short').toString()).toBe(` M ${FILE}\n`)
    expect(rowbook('note', '--amend', 'last', '--weight', '1280 kg').stderr).toContain('Nothing changed')
  })
  it('gives the same as JSON', () => {
    const { root, rowbook } = book()
    rowbook(...pick)
    const { json } = runJson(['note', '--amend', 'last', '--crates', '150'], { cwd: root })
    expect(json.data).toMatchObject({ file: FILE, written: true, entry: { crates: 150 } })
    expect(json.data.kept).toContain('.rowbook/kept/')
  })
  test.each([
    [['--amend', 'last', '--note', 'x'], 'no entry is known here'],
    [['--amend', 'vineyard.yaml', '--note', 'x'], 'is not an entry of a season'],
    [['--amend', '../other.yaml', '--note', 'x'], 'is not an entry of a season'],
    [['--amend', `${PICKS}/none.yaml`, '--note', 'x'], 'there is no entry in'],
    [['--amend', `${LIST}:1`, '--note', 'x'], 'no entry of seasons/2026/samples.yaml is on line 1'],
    [['--amend', `${LIST}:2`], 'nothing to change was named'],
    [['--amend', `${LIST}:2`, '--weight', '3 kg'], '--weight is no field of a sample'],
    [['--amend', `${LIST}:2`, '--brix', 'sweet'], '--brix'],
    [['--amend', `${LIST}:2`, '--block', ''], 'nothing to change was named'],
    [['--amend', `${LIST}:2`, '--date', '2024-05-01'], 'is in season 2024'],
    [['--amend', `${LIST}:2`, '--like', 'last', '--note', 'x'], '--like begins a new entry'],
    [['--amend', `${LIST}:2`, '--brix', ''], 'would lack something'],
  ])('refuses %j and changes nothing', (args, message) => {
    const { rowbook, text } = book({ [LIST]: SAMPLES })
    const { status, stderr } = rowbook('note', ...args)
    expect(status).toBe(2)
    expect(stderr).toContain(message)
    expect(text(LIST)).toBe(SAMPLES)
  })
  it('names an entry that is there where nothing was written yet, and none where there is none', () => {
    const last = (files = {}) => book(files).rowbook('note', '--amend', 'last', '--note', 'x').stderr
    expect(last({ [LIST]: SAMPLES })).toMatch(/`--amend seasons\/2026\/samples\.yaml:\d+`$/m)
    expect(last()).toContain('no entry is here yet: write one with `rowbook note`')
  })
  it('is stopped by an error unless --anyway', () => {
    const spray =
      'date: 2026-06-14\nblocks: [upper]\nwater: 300 L/ha\nproducts:\n  - { product: sulphur, rate: 3 kg/ha, for: powdery }\n'
    const file = 'seasons/2026/sprays/a.yaml'
    const { rowbook, text } = book({ [file]: spray })
    expect(rowbook('note', '--amend', file, '--product', 'sulphur=30 kg/ha')).toMatchObject({ status: 1 })
    expect(text(file)).toBe(spray)
    expect(rowbook('note', '--amend', file, '--product', 'sulphur=30 kg/ha', '--anyway')).toMatchObject({
      status: 0,
    })
    expect(text(file)).toContain('30 kg/ha')
  })
})

describe('note --undo', () => {
  it('takes back the last entry and keeps it', () => {
    const { root, rowbook, text } = book()
    rowbook(...pick)
    const before = text(FILE)
    expect(rowbook('note', '--undo', '--dry-run').stdout).toContain('weight: 1820 kg')
    const { status, stdout } = rowbook('note', '--undo')
    expect(status).toBe(0)
    expect(stdout).toContain(`Taken back: ${FILE}`)
    expect(existsSync(join(root, FILE))).toBe(false)
    expect(text('.rowbook/kept/2026-picks-2026-09-29-upper.yaml')).toBe(before)
    const again = rowbook('note', '--undo')
    expect(again).toMatchObject({ status: 2 })
    expect(again.stderr).toContain('taken back already')
    expect(rowbook('check').status).toBe(0)
  })
  it('takes back all that one command wrote, on several blocks or from a spreadsheet', () => {
    const { root, rowbook } = book()
    rowbook('note', 'work', '--block', 'all', '--job', 'mowing', '--date', '2026-05-01')
    expect(readdirSync(join(root, 'seasons/2026/work'))).toHaveLength(2)
    rowbook('note', '--undo')
    expect(readdirSync(join(root, 'seasons/2026/work'))).toEqual([])
    writeFileSync(
      join(root, 'map.txt'),
      'columns: { date: Day, block: Block, weight: Kg }\nunits: { weight: kg }\n',
    )
    writeFileSync(join(root, 'rows.csv'), 'Day,Block,Kg\n2026-09-28,Upper,800\n2026-09-29,Lower,500\n')
    rowbook('import', 'picks', 'rows.csv', '--map', 'map.txt', '--yes')
    expect(readdirSync(join(root, PICKS))).toHaveLength(2)
    rowbook('note', '--undo')
    expect(readdirSync(join(root, PICKS))).toEqual([])
  })
  it('takes back an import of weather, and not the entry before it', () => {
    const { root, rowbook, text } = book()
    const WEATHER = 'seasons/2026/weather.csv'
    const station = (rows: string) =>
      writeFileSync(join(root, 'station.csv'), `time,temperature_c,rain_mm\n${rows}`)
    rowbook(...pick)
    station('2026-06-01T00:00,12,0\n2026-06-01T01:00,12,\n')
    rowbook('import', 'weather', 'station.csv', '--yes')
    const first = text(WEATHER)
    for (const [rows, shown] of [
      ['2026-06-01T02:00,13,0\n', '  2026-06-01T02:00,13,0'],
      ['2026-06-01T01:00,12,4\n2026-06-01T02:00,13,0\n', '  rows added, and readings filled in older rows'],
      ['2026-06-01T01:00,12,4\n', '  readings filled in older rows'],
    ] as const) {
      station(rows)
      rowbook('import', 'weather', 'station.csv', '--yes')
      expect(text(WEATHER)).not.toBe(first)
      expect(rowbook('note', '--undo', '--dry-run').stdout.split('\n')).toContain(shown)
      expect(rowbook('note', '--undo')).toMatchObject({ status: 0 })
      expect(text(WEATHER)).toBe(first)
    }
    station('2026-06-01T02:00,13,0\n')
    rmSync(join(root, WEATHER))
    rowbook('import', 'weather', 'station.csv', '--yes')
    writeFileSync(join(root, WEATHER), `${text(WEATHER)}2026-06-01T03:00,13,0\n`)
    expect(rowbook('note', '--undo').stderr).toContain(`${WEATHER} is not as rowbook wrote it`)
    rmSync(join(root, WEATHER))
    rowbook('import', 'weather', 'station.csv', '--yes')
    const { stdout } = rowbook('note', '--undo')
    expect(existsSync(join(root, WEATHER))).toBe(false)
    expect(flat(stdout)).toContain('It is kept in .rowbook/kept/2026-weather-6.csv')
    expect(existsSync(join(root, FILE))).toBe(true)
  })
  it('refuses what was changed since, and where nothing is known', () => {
    const { root, rowbook, text } = book()
    expect(rowbook('note', '--undo').stderr).toContain('no entry is known here')
    rowbook(...pick)
    writeFileSync(join(root, FILE), `${text(FILE)}note: by hand\n`)
    const { status, stderr } = rowbook('note', '--undo')
    expect(status).toBe(2)
    expect(stderr).toContain(`${FILE} is not as rowbook wrote it`)
    expect(stderr).toContain(`rowbook note --amend ${FILE}`)
    expect(text(FILE)).toContain('by hand')
  })
})
