import { describe, expect, test } from 'vitest'
import { judge } from '../../../src/rules/index.ts'
import { ledgerOf } from '../in-memory.ts'

// Mistakes that people make in a file, explained in plain words at the place to correct.

const FILE = 'seasons/2026/sprays/2026-06-20-upper.yaml'
const SPRAY = `date: 2026-06-20
time: 18:40-20:05
blocks: [upper]
sprayer: mounted
water: 300 L/ha
products:
  - { product: sulphur, rate: 3 kg/ha, for: powdery }
operator: R.
note: fine
`
/** For a site where both day first and month first are in use. */
const CANADA = 'name: Test Rows\nlatitude: 51.5\ntimezone: America/Toronto\n'
const told = (text: string, file = FILE) =>
  ledgerOf({ 'vineyard.yaml': CANADA, [file]: text }).findings.map(({ line, column, message, help }) => [
    `${line}:${column}`,
    message,
    help,
  ])

describe('one mistake gives one error', () => {
  test.each([
    ['an open quote', 'note: fine', 'note: "fine', '9:7', 'a quote is opened here and not closed'],
    [
      'an open quote further up',
      'blocks:',
      "operator: 'R.\nblocks:",
      '3:11',
      'a quote is opened here and not closed',
    ],
    ['a missing comma', 'sulphur, rate', 'sulphur rate', '7:23', 'a comma is missing before `rate`'],
    ['a key by a near name', 'blocks:', 'block:', '3:1', '`block` is not a key that rowbook knows here'],
    ['a colon', 'fine', 'stopped early: rain came', '9:7', 'a colon inside a note: put the note in quotes'],
    ['a missing space', 'date: 2026', 'date:2026', '1:1', 'a space is missing after `date:`'],
    ['a missing space further down', 'water: ', 'water:', '5:1', 'a space is missing after `water:`'],
    [
      'one space too many',
      'sprayer:',
      ' sprayer:',
      '4:2',
      'this line is indented by 1 space, its neighbours are not',
    ],
    [
      'a first line indented',
      'date:',
      ' date:',
      '1:2',
      'this line is indented by 1 space, its neighbours are not',
    ],
    [
      'a list out of line',
      '{ product: sulphur, rate: 3 kg/ha, for: powdery }',
      'product: sulphur\n     rate: 3 kg/ha',
      '8:6',
      'this line is indented by 5 spaces, its neighbours by 4',
    ],
    ['a decimal comma in braces', '3 kg/ha', '2,5 kg/ha', '7:31', '`2,5 kg/ha` has a comma in its number'],
    ['a decimal comma', '300 L', '300,5 L', '5:8', '`300,5 L/ha` has a comma in its number'],
    ['a tab', '  - {', '\t- {', '7:1', 'a tab is used to indent'],
    ['curly quotes', 'fine', '\u201cfine: ok\u201d', '9:7', 'these are curly quotes, from a word processor'],
    ['an open bracket', '[upper]', '[upper', '3:9', 'a `[` is opened here and not closed'],
    ['open braces', 'powdery }', 'powdery', '7:5', 'a `{` is opened here and not closed'],
    ['text behind a quote', 'fine', '"fine" today', '9:13', 'a text goes on after its closing quote'],
    ['a sign that YAML keeps', 'fine', '@ dawn', '9:7', 'a text can not begin with `@`'],
    ['a missing colon', 'sprayer:', 'sprayer', '4:1', 'a colon is missing after `sprayer`'],
    ['no space behind a dash', '- {', '-{', '7:3', 'a space is missing after the dash'],
    [
      'a day that may be two',
      '2026-06-20',
      '05/06/2026',
      '1:7',
      '`05/06/2026` can mean 2026-06-05 or 2026-05-06',
    ],
    ['a disease misspelt', 'for: powdery', 'for: powdry', '7:45', 'no disease is called `powdry`'],
    ['an equals sign', 'date:', 'date =', '1:1', 'a colon is missing after `date`'],
    ['a semicolon in braces', 'sulphur, rate', 'sulphur; rate', '7:23', 'a comma is missing before `rate`'],
    ['a dash before a text', 'fine', '- fine', '9:7', 'a text can not begin with `-`'],
    [
      'a value on a line of its own',
      'sprayer: mounted',
      'sprayer:\nmounted',
      '5:1',
      'this line has no key, like `date:`',
    ],
    [
      'dashes out of line',
      'blocks: [upper]',
      'blocks:\n - upper\n- lower',
      '5:1',
      'this line is indented by no spaces, its neighbours by 1',
    ],
    ['a list for a text', 'mounted', '[mounted]', '4:10', 'expected text, not a list'],
    ['a key begun', 'operator:', 'oper:', '8:1', '`oper` is not a key that rowbook knows here'],
    ['all blocks', '[upper]', 'all', '3:9', 'there is no block `all`'],
    [
      'a missing colon in braces',
      'product: sulphur',
      'product sulphur',
      '7:7',
      '`product sulphur` is not a key that rowbook knows here',
    ],
    [
      'a percent sign before its number',
      'note: fine',
      'weather: { wind: 1 m/s, humidity: %72 }',
      '9:35',
      'the percent sign goes behind its number',
    ],
    [
      'a dash before the first key',
      'date:',
      '- date:',
      '1:1',
      'a dash begins the first line, and the lines below are not indented with it',
    ],
    [
      'a product as a key',
      '{ product: sulphur, rate: 3 kg/ha, for: powdery }',
      'sulphur: 3 kg/ha',
      '7:5',
      '`sulphur` is not a key that rowbook knows here',
    ],
    [
      'a wind with its direction',
      'note: fine',
      'weather: { wind: 1.4 m/s WSW }',
      '9:18',
      '`1.4 m/s WSW` is a speed and a direction',
    ],
    ['two targets', 'for: powdery', 'for: downy mildew and powdery', '7:45', /names more than one target$/],
    ['a mildew', 'for: powdery', 'for: mildew', '7:45', '`mildew` can be powdery or downy'],
    ['a name for an id', '[upper]', '[Upper]', '3:10', '`Upper` is not an id'],
  ])('%s', (_, from, to, at, message) => {
    const text = SPRAY.replace(from, to)
    expect(text).not.toBe(SPRAY)
    expect(told(text).map(([place, said]) => [place, said])).toEqual([
      [at, message instanceof RegExp ? expect.stringMatching(message) : message],
    ])
  })

  test.each([
    ['fine', 'stopped early: rain came', 'write `note: "stopped early: rain came"`'],
    ['fine', 'he said "stop": rain', 'write `note: \'he said "stop": rain\'`'],
    ['date: 2026', 'date:2026', 'write `date: 2026-06-20`'],
    ['3 kg/ha', '2,5 kg/ha', 'write a point: `2.5 kg/ha`'],
    ['for: powdery', 'for: powdry', 'did you mean `powdery`?'],
    ['[upper]', '[\u201cUpper\u201d]', 'write `upper`: an id is lower-case words joined by hyphens'],
    ['[upper]', '[The Upper]', 'write `upper`, its id: the name of its file'],
    ['[upper]', '[Uper]', 'did you mean `upper`?'],
    ['[upper]', 'all', /^name each: \[.*upper/],
    ['date:', 'date =', 'write `date: 2026-06-20`'],
    ['sulphur, rate', 'sulphur; rate', 'write `product: sulphur, rate: ...`'],
    ['[upper]', '- upper', 'begin the list on the next line, each with a dash and a space'],
    ['mounted', '[mounted]', 'write `mounted` without brackets or braces'],
    ['operator:', 'oper:', 'did you mean `operator`?'],
    ['product: sulphur', 'product sulphur', 'did you mean `product: sulphur`?'],
    ['water: 300 L', 'water: 0,325 m3', 'write a point: `0.325 m3/ha`'],
    ['note: fine', 'weather: { humidity: %72 }', 'write `humidity: 72 %`'],
    ['note: fine', 'weather: { wind: WSW 1.4 m/s }', 'write `wind: 1.4 m/s, from: WSW`'],
    ['for: powdery', 'for: downy mildew & powdery', 'write `[downy, powdery]`'],
    [
      '{ product: sulphur, rate: 3 kg/ha, for: powdery }',
      'sulphur: 10 g/L',
      'did you mean `{ product: sulphur, concentration: 10 g/L }`?',
    ],
    [
      '{ product: sulphur, rate: 3 kg/ha, for: powdery }',
      'sulphur 1.2 kg',
      'did you mean `{ product: sulphur, amount: 1.2 kg }`?',
    ],
    ['2026-06-20', '05/06/2026', 'write 2026-06-05 or 2026-05-06'],
  ])('%s written as %s is told the way out', (from, to, help) =>
    expect(told(SPRAY.replace(from, to)).map(([, , way]) => way)).toEqual([
      help instanceof RegExp ? expect.stringMatching(help) : help,
    ]),
  )

  test('two colons inside notes of a list are both reported', () => {
    const text = ['19', '20'].map(
      (day) => `- date: 2026-06-${day}\n  block: upper\n  job: mowing\n  note: wet: slow\n`,
    )
    expect(told(text.join(''), 'seasons/2026/work.yaml').map(([at]) => at)).toEqual(['4:9', '8:9'])
  })
})

test('a dash is compared with the lists open above it, not with an entry inside the one before', () => {
  const first = `- date: 2026-06-19\n  blocks: [upper]\n  products:\n    - { product: sulphur, rate: 3 kg/ha }\n`
  const list = (second: string) => told(`${first}${second}`, 'seasons/2026/sprays.yaml')
  expect(list(' - date: 2026-06-20\n   blocks: [upper]\n')).toEqual([
    ['5:2', 'this line is indented by 1 space, its neighbours are not', 'take the spaces at its start away'],
  ])
  expect(list('  - { product: copper, rate: 1 kg/ha }\n')[0]).toEqual([
    '5:3',
    'this line is indented by 2 spaces, its neighbours by 4',
    'indent it by 4 spaces',
  ])
  expect(list('- [date\n').flat().join(' ')).not.toContain('indented')
})

test('what people write is understood', () => {
  const sprays = (from: string, to: string) => {
    const { findings, sprays: read } = ledgerOf({ [FILE]: SPRAY.replace(from, to) })
    expect(findings).toEqual([])
    return read[0]!
  }
  expect(sprays('2026-06-20', '20/06/2026').date).toBe('2026-06-20')
  expect(sprays('2026-06-20', '20 june 2026').date).toBe('2026-06-20')
  expect(sprays('18:40-20:05', '6:30pm-7:10pm').time).toEqual({ start: 1110, end: 1150 })
  expect(sprays('18:40-20:05', '18.30').time).toEqual({ start: 1110, end: null })
  for (const words of ['Powdery', 'powdery mildew', 'POWDERY', 'oidium', 'Erysiphe necator', 'Uncinula'])
    expect(sprays('for: powdery', `for: ${words}`).products[0]!.for).toEqual(['powdery'])
  expect(sprays('for: powdery', 'for: mites').products[0]!.for).toEqual(['mites'])
})

test.each([
  ["52\u00b006'N", '52.1'],
  ['33\u00b0 54\' 30" S', '-33.9083'],
  ['33.9 S', '-33.9'],
])('a latitude of %s is proposed with decimals', (written, decimal) => {
  const { findings } = ledgerOf({ 'vineyard.yaml': CANADA.replace('51.5', written) })
  expect(findings.map(({ help }) => help)).toEqual([`write it in degrees with decimals: \`${decimal}\``])
})

test('all is answered by a list only where a list can stand', () => {
  const helpFor = (file: string, text: string) => told(text, file).map(([, , help]) => help)
  const work = '{ date: 2026-06-20, block: all, job: mowing }'
  expect(helpFor('seasons/2026/work.yaml', work)).toEqual(['write an entry for each block'])
  expect(helpFor(FILE, SPRAY.replace('mounted', 'all'))).toEqual([expect.stringMatching(/^known: /)])
})

test('a value outside what is possible is told as one, a converted one in few digits, a count whole', () => {
  const saidOf = (file: string, text: string) => told(text, file).map(([, message]) => message)
  const day = (high: string) => saidOf('seasons/2026/weather.yaml', `{ date: 2026-06-20, high: ${high} }`)
  expect(day('300 F')).toEqual(['148.9 °C is outside what is possible, -50 to 60 °C'])
  expect(day('60.0001 C')).toEqual(['60.0001 °C is outside what is possible, -50 to 60 °C'])
  const work = `{ date: 2026-06-20, block: upper, job: mowing, people: 1234567 }`
  expect(saidOf('seasons/2026/work.yaml', work)[0]).toContain('1234567 is outside')
})

test('ids are looked up for the first hundred names only, since each is held against every record', () => {
  const entries = Array.from({ length: 150 }, () => '- { date: 2026-06-20, block: The Upper, job: mowing }\n')
  const ways = told(entries.join(''), 'seasons/2026/work.yaml').map(([, , help]) => help)
  expect(ways.filter((way) => way === 'write `upper`, its id: the name of its file')).toHaveLength(100)
})

test('a missing comma before a list in braces is told as one', () => {
  const stage = '{ date: 2026-06-20 blocks: [upper], stage: 65 }'
  expect(told(stage, 'seasons/2026/stages.yaml')[0]![1]).toBe('a comma is missing before `blocks`')
})

test('a time zone is proposed by its city', () => {
  const zone = (name: string) =>
    ledgerOf({ 'vineyard.yaml': CANADA.replace('America/Toronto', name) }).findings.map(({ help }) => help)
  expect(zone('new york')).toEqual(['did you mean `America/New_York`?'])
  expect(zone('CET+1')).toEqual([expect.stringContaining('write an IANA name')])
})

test('a file named after another day than its entry is reported', () => {
  const ledger = ledgerOf({ 'seasons/2026/sprays/2026-06-21-upper.yaml': SPRAY })
  const found = judge({ ledger, asOf: '2026-07-01', seasons: new Set([2026]) })
  expect(
    found.filter(({ name }) => name === 'file-name-date').map(({ message, help }) => [message, help]),
  ).toEqual([
    ['the file is named 2026-06-21, this spray is dated 2026-06-20', 'correct the date, or rename the file'],
  ])
})

test('a key is found by what growers call it, and is not reported as missing as well', () => {
  const sample = (text: string) => told(`date: 2026-09-12\nblock: upper\n${text}\n`, SAMPLE)
  const SAMPLE = 'seasons/2026/samples/2026-09-12-upper.yaml'
  expect(sample('sugar: 19.6')).toEqual([
    ['3:1', '`sugar` is not a key that rowbook knows here', 'did you mean `brix`?'],
  ])
  expect(sample('brix: 19.6, 20.1')[0]![2]).toBe('write several as a list: `[19.6, 20.1]`')
  expect(sample('brix: 19.6 Brix')[0]![2]).toBe('write the number alone: `19.6`')
  expect(sample("brix: 19.6\nnote: 'it's sweet")[0]![2]).toContain('`note: "it\'s sweet"`')
})
