import { existsSync, readFileSync, rmSync, writeFileSync } from 'node:fs'
import { join } from 'node:path'
import { expect, test } from 'vitest'
import { parse } from 'yaml'
import { ledgerCopy, run, runJson } from './run.ts'

const MAP = `columns: { date: Day, time: Time, blocks: Where, product: What, rate: Dose, water: Water, weather.wind: Wind, note: Said }
units: { rate: kg/ha, water: L/ha, weather.wind: m/s }
words: { product: { sulfur: sulphur-80 } }
constants: { sprayer: mounted }
decimal: comma
dates: day-first
row: product
`
const HEAD = 'Day;Time;Where;What;Dose;Water;Wind;Said;Extra\n'

function book(rows: string, map = MAP, kind = 'sprays') {
  const ledger = ledgerCopy()
  writeFileSync(join(ledger, '..', 'map.yaml'), map)
  writeFileSync(join(ledger, '..', 'rows.csv'), rows)
  const args = ['import', kind, 'rows.csv', '--map', 'map.yaml', '--ledger', ledger]
  return { ledger, args, cwd: join(ledger, '..') }
}

const GOOD = `${HEAD}3.5.2023;18:00-19:00;Top Terrace;sulfur;2,5;300;1,8;;x
3.5.2023;18:00-19:00;Top Terrace;copper-hydroxide;1,2;300;1,8;;x
14.05.2023;18:00-19:10;"Top Terrace, kiln-bank";sulfur;3 kg/ha;300;;"a ""b"" ; c";
`

test('shows what it would write, and writes nothing until asked', () => {
  const { ledger, args, cwd } = book(GOOD)
  const { status, stdout } = run(args, { cwd })
  expect(status).toBe(0)
  expect(stdout).toContain('2 sprays in rows.csv, nothing written yet.')
  expect(stdout).toContain('{ product: sulphur-80, rate: 2.5 kg/ha }')
  expect(stdout).toContain('Columns not read: Extra.')
  expect(existsSync(join(ledger, 'seasons/2023'))).toBe(false)
})

test('writes all of it, which check then reads', () => {
  const { ledger, args, cwd } = book(GOOD)
  expect(run([...args, '--yes'], { cwd }).status).toBe(0)
  const text = readFileSync(join(ledger, 'seasons/2023/sprays/2023-05-14-top-terrace-kiln-bank.yaml'), 'utf8')
  expect(text).toContain('blocks: [ top-terrace, kiln-bank ]'.replace('[ ', '[').replace(' ]', ']'))
  expect(text).toContain('a "b" ; c')
  const { json } = runJson(['check', '--ledger', ledger, '--season', '2023'])
  expect(json.data.errors).toBe(0)
  expect(json.data.records.sprays).toBeGreaterThanOrEqual(2)
})

test('says so where the ledger keeps no note of what was written', () => {
  const { ledger, args, cwd } = book(GOOD)
  rmSync(join(ledger, '.rowbook'), { recursive: true, force: true })
  writeFileSync(join(ledger, '.rowbook'), 'a file in the way\n')
  const { status, stderr } = run([...args, '--yes'], { cwd })
  expect(status).toBe(0)
  expect(stderr.replace(/\s+/g, ' ')).toContain('`note --undo` will not know it')
})

test('names entries that are recorded already, and writes none of them unless asked', () => {
  const { args, cwd } = book(GOOD)
  run([...args, '--yes'], { cwd })
  const again = runJson([...args, '--yes'], { cwd })
  expect(again.status).toBe(1)
  expect(again.json.data.written).toBe(false)
  expect(again.json.findings.filter(({ name }) => name === 'entered-twice').map(({ line }) => line)).toEqual([
    2, 4,
  ])
  expect(runJson([...args, '--yes', '--anyway'], { cwd }).json.data.written).toBe(true)
})

test.each([
  ['31.2.2023;;Top Terrace;sulfur;2,5;300;;;', 1, 'bad-date'],
  ['2023-05-03;;Top Terrace;sulfur;2.5;300;;;', 32, 'wrong-type'],
  ['3.5.2023;18h;Top Terrace;sulfur;2,5;300;;;', 10, 'bad-time'],
  ['3.5.2023;;Nowhere;sulfur;2,5;300;;;', 11, 'bad-id'],
  ['3.5.2023;;Top Terrace;sulfur;2,5 furlong;300;;;', 30, 'unknown-unit'],
  ['3.5.2023;;Top Terrace;sulfur;1.234,5;300;;;', 30, 'wrong-type'],
  ['3.5.2023;;Top Terrace;sulfur;2,5;300;;"open;', 1, 'bad-row'],
  ['3.5.2023;;Top Terrace;sulfur;2,5;300;;"open;\n4.5.2023;;Top Terrace;sulfur;2,5;300;;;', 1, 'bad-row'],
  ['#3.5.2023;;Top Terrace;sulfur;2,5;300;;;', 1, 'bad-date'],
  ['3.5.2023;;Top Terrace', 1, 'bad-row'],
])('refuses %s at its place, and then writes nothing', (row, column, name) => {
  const { ledger, args, cwd } = book(`${GOOD}${row}\n`)
  const { status, json } = runJson([...args, '--yes', '--anyway'], { cwd })
  expect(status).toBe(1)
  expect(
    json.findings.map((finding) => [finding.file, finding.line, finding.column, finding.name]),
  ).toContainEqual(['rows.csv', 5, column, name])
  expect(existsSync(join(ledger, 'seasons/2023'))).toBe(false)
})

test('a row that lacks a required field is refused with its line', () => {
  const { args, cwd } = book(`${GOOD}3.5.2023;;Top Terrace;sulfur;;300;;;\n`)
  const { status, json } = runJson([...args, '--yes'], { cwd })
  expect(status).toBe(1)
  expect(json.findings[0]).toMatchObject({ file: 'rows.csv', line: 5, level: 'error' })
})

test.each([
  [MAP.replace('date: Day', 'dat: Day'), 'did you mean `date`?'],
  [MAP.replace('Day,', 'Dai,'), 'Did you mean `Day`?'],
  [MAP.replace('units: { rate: kg/ha, ', 'units: { '), 'units: { rate: kg/ha }'],
  ['columns: [', 'map.yaml'],
])('says what is wrong with a mapping', (map, help) => {
  const { args, cwd } = book(GOOD, map)
  const { status, stdout, stderr } = run(args, { cwd })
  expect(status).toBeGreaterThan(0)
  expect((stdout + stderr).replace(/\s+/g, ' ')).toContain(help)
})

test('a cell in quotation marks may go over several lines, and the lines after it keep their numbers', () => {
  const rows = `${HEAD}3.5.2023;;Top Terrace;sulfur;2,5;300;;"first line\r\nsecond; ""line""";\r
;;;;;;;;\r
4.5.2023;;Nowhere;sulfur;2,5;300;;;\r\n`
  const bad = book(rows)
  expect(runJson(bad.args, { cwd: bad.cwd }).json.findings).toMatchObject([
    { line: 5, column: 11, name: 'bad-id' },
  ])
  const { ledger, args, cwd } = book(rows.replace('Nowhere', 'Kiln Bank'))
  expect(run([...args, '--yes'], { cwd })).toMatchObject({ status: 0, stderr: '' })
  const text = readFileSync(join(ledger, 'seasons/2023/sprays/2023-05-03-top-terrace.yaml'), 'utf8')
  expect(parse(text).note).toBe('first line\nsecond; "line"')
  expect(existsSync(join(ledger, 'seasons/2023/sprays/2023-05-04-kiln-bank.yaml'))).toBe(true)
})

test('samples come in with units by column, several readings in a cell, and zeros at the end kept', () => {
  const map = `columns: { date: date, block: vineyard block, berries: n, brix: sugar, ph: pH, ta: acid }
units: { ta: g/L }
decimal: comma
dates: day-first
`
  const rows =
    'date;vineyard block;n;sugar;pH;acid\n1/9/2023;top-terrace;100;19,0;3,10;9,1\n8/9/2023;Kiln Bank;;"18,2; 19,5; 20,0";;\n'
  const { ledger, args, cwd } = book(rows, map, 'samples')
  expect(run([...args, '--yes'], { cwd })).toMatchObject({ status: 0, stderr: '' })
  const read = (name: string) => readFileSync(join(ledger, `seasons/2023/samples/${name}.yaml`), 'utf8')
  expect(
    read('2023-09-01-top-terrace'),
  ).toBe(`# yaml-language-server: $schema=../../../.rowbook/schema/sample.json
date: 2023-09-01
block: top-terrace
berries: 100
brix: 19.0
ph: 3.10
ta: 9.1 g/L
`)
  expect(read('2023-09-08-kiln-bank')).toContain('brix: [18.2, 19.5, 20.0]')
  const wrong = book(rows.replace('9,1', '9.1'), map, 'samples')
  expect(runJson(wrong.args, { cwd: wrong.cwd }).json.findings).toMatchObject([
    { line: 2, column: 36, name: 'wrong-type' },
  ])
})

test('picks come in with weights in the unit that the cell or the mapping names', () => {
  const map = `columns: { date: Date, block: Block, weight: Weight, people: Pickers, hours: Hours, brix: Brix }
units: { weight: lb }
dates: month-first
`
  const rows =
    'Date,Block,Weight,Pickers,Hours,Brix,Van\n9/29/2023,top-terrace,4012,6,5.5,20.8,red\n10/2/2023,kiln-bank,1.2 t,4,6,,red\n'
  const { ledger, args, cwd } = book(rows, map, 'picks')
  expect(run(args, { cwd }).stdout).toContain('Columns not read: Van.')
  expect(existsSync(join(ledger, 'seasons/2023/picks'))).toBe(false)
  expect(run([...args, '--yes'], { cwd })).toMatchObject({ status: 0, stderr: '' })
  expect(readFileSync(join(ledger, 'seasons/2023/picks/2023-09-29-top-terrace.yaml'), 'utf8')).toContain(
    'weight: 4012 lb\npeople: 6\nhours: 5.5\nbrix: 20.8\n',
  )
  const wrong = book(rows.replace('9/29/2023', '29/9/2023'), map, 'picks')
  const { status, json } = runJson([...wrong.args, '--yes'], { cwd: wrong.cwd })
  expect(status).toBe(1)
  expect(json.findings).toMatchObject([{ file: 'rows.csv', line: 2, column: 1, name: 'bad-date' }])
  expect(existsSync(join(wrong.ledger, 'seasons/2023/picks'))).toBe(false)
})

test('one word stands for several blocks, and names come as people write them', () => {
  const map = MAP.replace(
    'words: { product',
    'words: { blocks: { Alle: all, Hang: [top-terrace, kiln-bank] }, product',
  )
  const rows = `${HEAD}3.5.2023;;All;sulfur;2,5;300;;;
4.5.2023;;top + Kiln;Copper Hydroxide;1,2;300;;;
5.5.2023;;Hang + brook;sulfur;2,5;300;;;
6.5.2023;;Alle;sulfur;2,5;300;;;
`
  const { ledger, args, cwd } = book(rows, map)
  expect(run([...args, '--yes', '--anyway'], { cwd })).toMatchObject({ status: 0 })
  const blocks = (name: string) =>
    parse(readFileSync(join(ledger, `seasons/2023/sprays/2023-05-${name}.yaml`), 'utf8')).blocks
  const all = ['brook-rows', 'gate-field', 'kiln-bank', 'top-terrace']
  expect([...blocks('03-all-blocks')].sort()).toEqual(all)
  expect(blocks('04-top-terrace-kiln-bank')).toEqual(['top-terrace', 'kiln-bank'])
  expect(blocks('05-top-terrace-kiln-bank-brook-rows')).toEqual(['top-terrace', 'kiln-bank', 'brook-rows'])
  expect([...blocks('06-all-blocks')].sort()).toEqual(all)
})

test.each([
  ['Upper', '`Upper` is not a block of the ledger'],
  ['e', '`e` may mean'],
])('a block that is not plain is asked for: %s', (word, message) => {
  const { args, cwd } = book(`${HEAD}3.5.2023;;${word};sulfur;2,5;300;;;\n`)
  const { status, stdout } = run([...args, '--yes'], { cwd })
  expect(status).toBe(1)
  expect(stdout.replace(/\s+/g, ' ')).toContain(message)
  expect(stdout.replace(/\s+/g, ' ')).toContain(`words: { blocks: { "${word}":`)
})

const AS_SAID = `columns: { date: Day, blocks: Where, product: What, rate: Dose, water: Water }
words: { blocks: { Hill: [top-terrace, kiln-bank], B: brook-rows, T: top-terrace } }
`
const saidRow = (day: string, where: string, what: string, dose = '3 kg/ha') =>
  book(`Day;Where;What;Dose;Water\n${day};${where};${what};${dose};300 L/ha\n`, AS_SAID)

test.each([
  ['14 Jun 2023', 'Top Terrace + Brook Rows', 'sulphur', '[top-terrace, brook-rows]'],
  ['14-Jun-23', 'Top & Brook', 'SULPHUR-80 WG', '[top-terrace, brook-rows]'],
  ['Jun 14, 2023', 'top, kiln', 'sulfur', '[top-terrace, kiln-bank]'],
  ['Wed 14 June 2023', 'top/kiln', 'Quillet Sulphur 80 (wettable)', '[top-terrace, kiln-bank]'],
  ['14/6/23', 'T+B', 'Sulphur', '[top-terrace, brook-rows]'],
  ['14.6.2023', 'hill and brook', 'Sulphur', '[top-terrace, kiln-bank, brook-rows]'],
  ['20230614', 'ALL', 'Sulphur', '[brook-rows, gate-field, kiln-bank, top-terrace]'],
])('takes %s, %s, %s as people write them', (day, where, what, blocks) => {
  const { args, cwd } = saidRow(day, where, what)
  const { json } = runJson(args, { cwd })
  const [entry] = (json.data as { entries: { text: string }[] }).entries
  expect(entry?.text).toContain('date: 2023-06-14')
  expect(entry?.text).toContain(`blocks: ${blocks}`)
  expect(entry?.text).toContain('product: sulphur-80')
})

test('a day of two readings is by the country of the site, unless the column says otherwise', () => {
  const rows = (...days: string[]) =>
    book(
      `Day;Where;What;Dose;Water\n${days.map((day) => `${day};top;sulphur;3 kg/ha;300 L/ha\n`).join('')}`,
      AS_SAID,
    )
  const dates = ({ args, cwd }: ReturnType<typeof book>) =>
    (runJson(args, { cwd }).json.data as { entries: { text: string }[] }).entries.map(
      ({ text }) => /date: (.*)/.exec(text)?.[1],
    )
  expect(dates(rows('3/6/2023'))).toEqual(['2023-06-03'])
  expect(dates(rows('3/6/2023', '6/17/2023'))).toEqual(['2023-03-06', '2023-06-17'])
  const canada = rows('3/6/2023')
  const site = join(canada.ledger, 'vineyard.yaml')
  writeFileSync(site, readFileSync(site, 'utf8').replace(/timezone: .*/, 'timezone: America/Toronto'))
  const { json } = runJson(canada.args, { cwd: canada.cwd })
  expect(json.findings[0]).toMatchObject({ name: 'bad-date', line: 2 })
  expect(json.findings[0]!.help).toContain('write 2023-06-03 or 2023-03-06; or say `dates: day-first`')
})

test.each([
  ['14 Jun 2023', 'both', 'sulphur', '`both` is not a block'],
  ['14 Jun 2023', 'all except Pond', 'sulphur', '`Pond` is not a block'],
  ['14 Jun 2023', 'top', 'koper', '`koper` is not a product'],
  ['31.6.2023', 'top', 'sulphur', 'not a date of the calendar'],
  ['soon', 'top', 'sulphur', '`soon` is not a date'],
])('%s, %s, %s is refused, with the way out', (day, where, what, told) => {
  const { args, cwd } = saidRow(day, where, what)
  const { status, json } = runJson([...args, '--yes', '--anyway'], { cwd })
  expect(status).toBe(1)
  expect(json.findings.map(({ message, help }) => `${message}; ${help}`).join('\n')).toContain(told)
})

test('without a mapping, one by the names of the columns is proposed, and it is read as printed', () => {
  const head = 'Date,Plot,Brix (refractometer),"Re: acid",humour\n'
  const { args, cwd } = book(`${head}2026-09-08,kiln-bank,19.4,9,good\n`, '', 'samples')
  const bare = args.filter((one) => one !== '--map' && one !== 'map.yaml')
  const { status, stderr } = run(bare, { cwd })
  expect(status).toBe(2)
  expect(stderr).toContain('Not understood: Re: acid, humour.')
  const lines = /^columns:\n(?: {2}.*\n)+/m.exec(stderr)![0]
  expect(parse(lines)).toEqual({
    columns: { date: 'Date', block: 'Plot', brix: 'Brix (refractometer)' },
  })
  writeFileSync(join(cwd, 'map.yaml'), lines)
  expect(run([...args, '--as-of', '2026-10-01'], { cwd }).stdout).toContain('brix: 19.4')
  writeFileSync(join(cwd, 'rows.csv'), 'x,y\n1,2\n')
  expect(run(bare, { cwd }).stderr).toContain('write a file that says which column holds what')
})
