import { readFileSync } from 'node:fs'
import { expect, test } from 'vitest'
import { inLedgerUnits, typedIn } from '../../src/facts/ledger-units.ts'
import { convert } from '../../src/records/units.ts'
import { runHere } from '../faults/in-process.ts'
import { sourceTexts } from '../wording/strings.ts'
import { bookIn, lengthened } from './own-books.ts'
import { linesOf, walk } from './walk.ts'

/** A figure in a metric unit. The content of must is given in g/L in these countries too. */
const METRIC =
  /°C|\d C\b|\d ?mm\b|kg|(?<!g\/|OJ )\bL\b|\bha\b|hectare|km\/h|\d m2?\b|\d m\/s|\d ?g\b(?!\/L)|\d mL\b|\d t\b|tonne|\d bar\b|g\/kg/
/** Reports of sprays, in which g/L is the strength of one. */
const OF_SPRAYS =
  /^rowbook (?:mix|today|check|totals|cover|label|diary|calibrate|sheet (?:spray|scouting|crop))/

/** Lines that may be metric: rows of a record as it was typed, its JSON, and how prices are kept. */
const RIGHT = /^ *\d+ \||in JSON |EUR\/kg/

const CASES = [
  ['a US ledger with metric records', bookIn('us', 'far-quillet'), '2026-09-14'],
  [
    'an imperial ledger whose records are imperial',
    bookIn('imperial', 'tansy-corner', { records: true }),
    '2026-07-30',
  ],
] as const

test.each(CASES)('%s prints no metric figure', async (_, root, day) => {
  const walked = await walk(
    root,
    linesOf(root).filter(([name]) => name !== 'note'),
    day,
  )
  expect(metricIn(walked)).toEqual([])
})

test.each(CASES)('%s has none on its pages, in its calendar and its spray record', async (_, root, day) => {
  const pages = ['season', 'today', 'diary', 'harvest', 'heat', 'cover', 'pressure']
  const lines = [
    ...pages.map((name) => [name, '--html', '-']),
    ['sheet', 'crop', '--html', '-'],
    ['calendar', '--past'],
    ...['full', 'us'].map((form) => ['diary', '--form', form, '--csv', '-']),
  ]
  const walked = (await walk(root, lines, day)).map(({ line, out }) => ({ line, out: wordsOf(out) }))
  expect(metricIn(walked)).toEqual([])
})

test('explanations in a US ledger are in its units', async () => {
  const { out } = await runHere(['explain', '--html', '-'], CASES[0][1])
  const METRIC_LIMIT = /\d °C|\d mm\b|\d (?:kg|L|g)\/?(?:ha|h|min)?\b(?!\/L)|\d km\/h|\d m\b(?! 4)|\d m\/s/
  const rows = wordsOf(out).split('\n')
  expect(rows.length).toBeGreaterThan(500)
  expect(rows.filter((row) => METRIC_LIMIT.test(row) && !KEPT_SOURCES.test(row))).toEqual([])
})

/** Publications in whose title or cases a metric figure stands, and what is quoted to type. */
const KEPT_SOURCES =
  /\(source read\)|second-hand|from memory|(?:harvest|press): \{|common practice|own (?:rule|choice)/

const metricIn = (walked: readonly { line: string; out: string }[]) =>
  walked.flatMap(({ line, out }) =>
    out
      .split('\n')
      .flatMap((row) =>
        (METRIC.test(row) || (OF_SPRAYS.test(line) && row.includes('g/L'))) && !RIGHT.test(row)
          ? [`${line}: ${row.trim()}`]
          : [],
      ),
  )

/** What a page shows, without its marks; other texts as they are. */
const wordsOf = (text: string) =>
  text
    .replace(/<style>[\s\S]*?<\/style>/g, '')
    .replace(/<[^>]*>/g, '\n')
    .replaceAll('&lt;', '<')

test('no finding of any rule has a metric figure', () => {
  const told = readFileSync('tests/rules/said.txt', 'utf8')
    .split('\n')
    .filter((line) => line !== '' && !line.startsWith('# '))
  expect(told.length).toBeGreaterThan(200)
  const figure = /\d (?:°C|C|mm|kg|g|t|L|mL|ha|m2?|km|bar)(?:\/(?:ha|h|t|L|kg|s|min))?(?![\w/])/
  for (const units of ['us', 'imperial'] as const)
    expect(
      told
        .map((line) => inLedgerUnits(line, units, 'spray').replace(/`[^`]*`/g, ''))
        .filter((line) => figure.test(line)),
    ).toEqual([])
})

test('a difference of temperatures is converted as a difference', () => {
  expect(inLedgerUnits('it was 20 °C, 1.9 °C apart, within 2 to 8 °C apart', 'us')).toBe(
    'it was 68 °F, 3.4 °F apart, within 3.6 to 14.4 °F apart',
  )
})

test('every difference of temperatures in the program is worded as one', () => {
  const compared = /°C (?:warmer|colder|cooler|hotter|higher|lower|more|less|above|below|over the|difference)/
  const texts = sourceTexts('.', 'src').filter(({ text }) =>
    compared.test(text.replace(/°C above (?:\d|\$|…)/g, '')),
  )
  expect(texts.filter(({ text }) => !text.includes("°C warmer than the season's own course"))).toEqual([])
})

test('the concentration of a spray is in ounces per gallon, acid in g/L', () => {
  expect(inLedgerUnits('30 g/L of sulphur, at most 6 g/L', 'us', 'spray')).toBe(
    '4.01 oz/US gal of sulphur, at most 0.8 oz/US gal',
  )
  expect(inLedgerUnits('acid 7.9 g/L', 'imperial')).toBe('acid 7.9 g/L')
})

test('a quotation is unchanged, except an example, which is rounded', () => {
  expect(inLedgerUnits('write `a: 5 kg`, like `b: 12 kg`; or write `c: 5 kg`, not 5 kg', 'us')).toBe(
    'write `a: 5 kg`, like `b: 30 lb`; or write `c: 5 kg`, not 11 lb',
  )
})

test('a converted dose stays within the limits of its label', () => {
  const within = { low: 2, high: 6 }
  for (const value of [2, 2.0001, 3, 5.9999, 6])
    for (const units of ['us', 'imperial', 'metric'] as const) {
      const [number, unit] = typedIn({ value, unit: 'kg/ha' }, units, { digits: 3, within }).split(' ')
      const kept = convert(Number(number), unit!, 'kg/ha')
      expect([value, units, kept >= 2 && kept <= 6, Math.abs(kept - value) < 0.03]).toEqual([
        value,
        units,
        true,
        true,
      ])
    }
  expect(typedIn({ value: 0.5, unit: 'L/ha' }, 'us', { digits: 3 })).toBe('6.84 US fl oz/acre')
})

test('commands that today prints in a US ledger with long ids run as printed', async () => {
  const root = lengthened(bookIn('us', 'far-quillet', { records: true }))
  const { out } = await runHere(['today', '--as-of', '2026-07-30'], root)
  const commands = out.replace(/ \\\n */g, ' ').match(/^ *rowbook mix .*$/gm) ?? []
  expect(commands.length).toBeGreaterThan(0)
  for (const command of commands) {
    const words = [...command.trim().matchAll(/"([^"]*)"|(\S+)/g)].map((match) => match[1] ?? match[2]!)
    const { status, err } = await runHere([...words.slice(1), '--as-of', '2026-07-30'], root)
    expect([command, status, err]).toEqual([command, 0, ''])
  }
})

/** A figure in a unit of the United States. */
const CUSTOMARY = /\d °F|\d (?:lb|oz|ft|in|mph|psi|acres?|US \w+)\b/
/** Reports whose sentences come from what several reports share. */
const SHARED = ['today', 'pressure', 'cover', 'ready', 'season'].map((name) => [name])

test('units chosen on the command line apply to every sentence of a screen', async () => {
  const us = SHARED.map((line) => [...line, '--units', 'us'])
  expect(metricIn(await walk('examples/far-quillet', us, '2026-07-16'))).toEqual([])
  const metric = SHARED.map((line) => [...line, '--units', 'metric'])
  const walked = await walk(CASES[0][1], metric, '2026-07-16')
  expect(walked.flatMap(({ out }) => out.split('\n').filter((row) => CUSTOMARY.test(row)))).toEqual([])
})

test.each([
  [
    ['mix', '--block', 'brook', '--product', 'sulphur'],
    '--water "30 US gal/acre", or the total --water "35 US gal"',
  ],
  [['mix', '--block', 'brook', '--water', '30'], 'write "30 US gal" for all of it, or "30 US gal/acre"'],
  [['mix', '--dose', 'sulphur', '--water', '3 US gal'], '1.78-5.35 lb/acre'],
  [['note', 'spray', '--block', 'brook'], 'like "sulphur=3 lb/acre"'],
])('what %j proposes to type in a US ledger is in its units', async (args, said) => {
  const { status, err } = await runHere(args, CASES[0][1], '2026-07-16')
  expect(status).toBe(2)
  expect(err.replace(/\s+/g, ' ')).toContain(said)
  expect(err).not.toMatch(/\d ?(?:kg|L|ha)\b/)
})
