import { readFileSync, writeFileSync } from 'node:fs'
import { join } from 'node:path'
import { describe, expect, test } from 'vitest'
import { makeLedger } from '../ledger/make.ts'
import { run, runJson } from './run.ts'

const SITE = 'name: Test Rows\nlatitude: 51.5\nlongitude: 7.1\ntimezone: Europe/Berlin\n'
const FILE = 'seasons/2026/weather.csv'
const STANDS = 'time,temperature_c,rain_mm\n2026-06-01T00:00,12.5,0\n2026-06-01T01:00,12,0.2\n'
/** Day first, comma, another order, °F and inches; the second row stands in the ledger already. */
const EXPORT = [
  'Zeit;Regen;Temp;Druck',
  '01.06.2026 01:00;0,01;53,6;1013',
  '01.06.2026 02:00;0,1;50,0;1012',
  '01.06.2026 03:00;;48,2;1012',
].join('\n')
const HOW = [
  ['--columns', 'time=Zeit, temperature=Temp, rain=Regen'],
  ['--column-units', 'temperature=F, rain=in'],
  ['--decimal', 'comma'],
  ['--dates', 'day-first'],
].flat()

function ledgerWith(files: Record<string, string>) {
  const root = makeLedger({ 'vineyard.yaml': SITE, ...files })
  writeFileSync(join(root, 'export.txt'), EXPORT)
  return root
}

describe('an export that is written in another way than the ledger', () => {
  test('is turned into rows of the season file, unit by unit, new rows only', () => {
    const root = ledgerWith({ [FILE]: STANDS })
    const look = run(['import', 'weather', 'export.txt', ...HOW], { cwd: root })
    expect(look).toMatchObject({ status: 0 })
    expect(look.stdout).toContain('2 rows would be added')
    expect(look.stdout).toContain('2026-06-01T02:00,10,2.54')
    expect(readFileSync(join(root, FILE), 'utf8')).toBe(STANDS)
    const { status } = run(['import', 'weather', 'export.txt', ...HOW, '--yes'], { cwd: root })
    expect(status).toBe(0)
    expect(readFileSync(join(root, FILE), 'utf8')).toBe(
      `${STANDS}2026-06-01T02:00,10,2.54\n2026-06-01T03:00,9,\n`,
    )
    const { json } = runJson(['import', 'weather', 'export.txt', ...HOW], { cwd: root })
    expect(json.data.seasons).toMatchObject([{ added: 0, known: 3, different: 1 }])
  })
  test('begins a file by what vineyard.yaml says, and pressure reads it back', () => {
    const weather =
      'weather: { columns: { temperature: "temp F" }, units: { temperature: F }, decimal: comma, dates: day-first }\n'
    const root = ledgerWith({ 'vineyard.yaml': SITE + weather })
    run(['import', 'weather', 'export.txt', ...HOW, '--yes'], { cwd: root })
    expect(readFileSync(join(root, FILE), 'utf8')).toBe(
      'time;temp F;rain_mm\n01.06.2026 01:00;53,6;0,25\n01.06.2026 02:00;50;2,54\n01.06.2026 03:00;48,2;\n',
    )
    const { json } = runJson(['heat', '--as-of', '2026-06-02', '--from', '2026-06-01'], { cwd: root })
    expect(json.findings).toEqual([])
    expect(json.data.fromHours.hours).toBeCloseTo(2 / 24, 6)
  })
  test('what is said of it must hold', () => {
    const root = ledgerWith({ [FILE]: STANDS })
    const wrong = (...args: string[]) => run(['import', 'weather', 'export.txt', ...args], { cwd: root })
    expect(wrong('--columns', 'time=Zeit, temperature=Tmp')).toMatchObject({ status: 2 })
    expect(wrong('--columns', 'time=Zeit, temperature=Tmp').stderr).toContain('no column `Tmp`')
    expect(wrong(...HOW.slice(0, 2), '--column-units', 'temperature=K').stderr).toContain(
      'no unit for temperature',
    )
    expect(wrong('--columns', 'Zeit').stderr).toContain('names no column')
    expect(wrong().stderr).toContain('time or the date')
    const sprays = run(['import', 'sprays', 'export.txt', '--decimal', 'comma'], { cwd: root })
    expect(sprays).toMatchObject({ status: 2, stdout: '' })
    const daily = ledgerWith({ [FILE]: 'date,min_c,max_c\n2026-06-01,8,20\n' })
    const mixed = run(['import', 'weather', 'export.txt', ...HOW], { cwd: daily })
    expect(mixed).toMatchObject({ status: 2 })
    expect(mixed.stderr).toContain('of hours')
  })
})

describe('a weather file without a ledger', () => {
  test('decimal, dates, separator and units are said without naming columns', () => {
    const root = ledgerWith({})
    const path = join(root, 'daily.txt')
    writeFileSync(path, 'date|min_c|max_c\n06/01/2026|50,0|68,0\n06/02/2026|50,0|68,0\n')
    const args = [
      'heat',
      '--weather',
      path,
      '--latitude',
      '45',
      '--decimal',
      'comma',
      '--dates',
      'month-first',
    ]
    const { json } = runJson([...args, '--separator', '|', '--column-units', 'min=F, max=F'], { cwd: root })
    expect(json).toMatchObject({ findings: [], data: { from: '2026-06-01', to: '2026-06-02', sum: 10 } })
  })
  test('said without a file it is used wrongly', () => {
    const { status, stderr } = run(['heat', '--decimal', 'comma'], { cwd: ledgerWith({}) })
    expect(status).toBe(2)
    expect(stderr).toContain('add --weather FILE')
  })
})
