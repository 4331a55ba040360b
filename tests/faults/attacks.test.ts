import {
  existsSync,
  mkdirSync,
  mkdtempSync,
  readdirSync,
  readFileSync,
  renameSync,
  symlinkSync,
  writeFileSync,
} from 'node:fs'
import { tmpdir } from 'node:os'
import { dirname, join } from 'node:path'
import ICAL from 'ical.js'
import { describe, expect, test } from 'vitest'
import { AS_OF, smallBook } from './book.ts'
import { runHere } from './in-process.ts'
import { startProgram } from './processes.ts'
import { SOAK, times } from './size.ts'

const STEERS = /[\0-\x08\x0b-\x1f\x7f-\x9f\u200b-\u200f\u202a-\u202e\u2066-\u2069]/
/** Time limit on a busy machine for work that takes tenths of a second on an idle one. */
const SOON_MS = SOAK ? 30_000 : 8000

/** Runs a command in a ledger; it may not crash, steer the terminal or take long. */
async function run(root: string, args: readonly string[]) {
  const started = performance.now()
  const ran = await runHere([...args, '--ledger', root, '--as-of', AS_OF], root)
  expect(performance.now() - started).toBeLessThan(SOON_MS)
  expect(ran.fault).toBeNull()
  expect(`${ran.out}${ran.err}`).not.toMatch(STEERS)
  return ran
}

const put = (root: string, file: string, text: string) => {
  mkdirSync(dirname(join(root, file)), { recursive: true })
  writeFileSync(join(root, file), text)
}
const folder = () => mkdtempSync(join(tmpdir(), 'rowbook-attack-'))
const below = (path: string) => readdirSync(path, { recursive: true, encoding: 'utf8' }).sort()

const BLOCK = (name: string) =>
  `name: ${JSON.stringify(name)}\nvariety: palava\nrows: 10\nrow_length: 80 m\nrow_spacing: 2 m\nvine_spacing: 1 m\n`

describe('P1: names cannot plant anything in the page and calendar of a picking day', () => {
  test.each([
    '<script>alert(1)</script>',
    '"><img src=x onerror=alert(1)>',
    'A;VALUE=URI:http://planted.invalid',
    'A\\nEND:VEVENT\\nBEGIN:VALARM',
    'A,B\\,C\\',
    `${'ö'.repeat(90)}`,
    '=HYPERLINK("http://planted.invalid")',
  ])('%j', async (name) => {
    const note = JSON.stringify(`${name}\nEND:VEVENT\nBEGIN:VALARM`)
    const root = smallBook({
      'vineyard.yaml': `name: ${JSON.stringify(name)}\nlatitude: 51.5\ntimezone: Europe/Berlin\nnote: ${note}\n`,
      'blocks/lower.yaml': `${BLOCK(name)}note: ${note}\n`,
      'seasons/2026/crop/2026-09-20-lower.yaml':
        'date: 2026-09-20\nblock: lower\nbunches_per_vine: [20, 22, 19]\nbunch_weight: [90 g, 100 g, 95 g]\nat: harvest\n',
    })
    const into = folder()
    const [page, day] = [join(into, 'day.html'), join(into, 'day.ics')]
    const out = ['--block', 'lower', '--date', '2026-10-08', '--people', '3', '--helpers', page, '--ics', day]
    const ran = await run(root, ['harvest', ...out])
    expect([ran.status, ran.err]).toEqual([
      expect.any(Number),
      expect.stringMatching(/^Written: .*\nWritten: .*\n$/),
    ])
    const html = readFileSync(page, 'utf8')
    expect(html).toContain('</html>')
    expect(html).not.toMatch(/<script>alert|<img src=x/)
    const text = readFileSync(day, 'utf8')
    expect(text.replaceAll('\r\n', '')).not.toMatch(/[\r\n]/)
    const parts = new ICAL.Component(ICAL.parse(text)).getAllSubcomponents()
    expect(parts.length).toBeGreaterThan(0)
    for (const part of parts.filter(({ name }) => name !== 'vtimezone'))
      expect([part.name, part.getAllSubcomponents()]).toEqual(['vevent', []])
  })
})

describe('P2: rows of a spreadsheet with hostile headings and mappings', () => {
  const HEADINGS = [
    '__proto__', 'constructor', '=cmd|calc!A1', '\u001b[31mDay', '\u202eyaD', '(a+)+$', 'x'.repeat(100_000), '', '"', '\0',
  ] // biome-ignore format: a list of words
  test.each(HEADINGS)('a heading %j', async (heading) => {
    const root = smallBook()
    const file = join(folder(), 'rows.csv')
    writeFileSync(
      file,
      `Day,Block,What,Dose,"${heading.replaceAll('"', '""')}"\n2026-05-11,lower,sulphur,3,x\n`,
    )
    const map = join(folder(), 'map.yaml')
    const named = JSON.stringify(heading)
    writeFileSync(
      map,
      `columns: { date: Day, blocks: Block, product: What, rate: Dose, note: ${named} }\nunits: { rate: kg/ha }\nrow: product\n`,
    )
    const before = below(root)
    expect((await run(root, ['import', 'sprays', file, '--map', map])).status).toBeLessThan(3)
    expect(below(root)).toEqual(before)
    expect(({} as Record<string, unknown>).date).toBeUndefined()
  })

  test.each([
    ['anchors that hold themselves', 'columns: &a { date: *a }\n'],
    ['aliases of aliases', `a: &a [x,x]\nb: &b [*a,*a]\nc: &c [*b,*b]\ncolumns: { date: *c }\n`],
    ['a tag', 'columns: !!js/function "x"\n'],
    ['names of the prototype', 'columns: { __proto__: Day, constructor: Block, toString: What }\n'],
    ['depth', `columns: ${'{ a: '.repeat(5000)}`],
    ['no columns', 'units: { rate: kg/ha }\n'],
    ['two megabytes', `# ${'x'.repeat(2_000_000)}\ncolumns: { date: Day }\n`],
    ['nothing', ''],
  ])('a mapping with %s is told', async (_, text) => {
    const root = smallBook()
    const [file, map] = [join(folder(), 'rows.csv'), join(folder(), 'map.yaml')]
    writeFileSync(file, 'Day,Block,What\n2026-05-11,lower,sulphur\n')
    writeFileSync(map, text)
    const before = below(root)
    const { status, err } = await run(root, ['import', 'sprays', file, '--map', map, '--yes'])
    expect([status, err]).toEqual([2, expect.stringMatching(/\S/)])
    expect(below(root)).toEqual(before)
  })
})

describe('P3: hostile files among the days of weather typed by hand', () => {
  const DAY = 'seasons/2026/weather/2026-05-11.yaml'
  const PAGE = 'seasons/2026/weather.yaml'
  test.each([
    ['an anchor that holds itself', DAY, '&a { date: 2026-05-11, low: *a }\n'],
    ['aliases of aliases', PAGE, '- &a { date: 2026-05-11, low: 8 C }\n- *a\n- *a\n'],
    ['a merge of keys', DAY, '<<: { date: 2026-05-11 }\nlow: 8 C\n'],
    ['depth', DAY, `date: 2026-05-11\nnote: ${'['.repeat(20_000)}\n`],
    ['two megabytes', PAGE, '- { date: 2026-05-11, low: 8 C, high: 21 C }\n'.repeat(45_000)],
    [
      'the same day thousands of times',
      PAGE,
      '- { date: 2026-05-11, low: 8 C, high: 21 C }\n'.repeat(15_000),
    ],
    ['figures without end', DAY, 'date: 2026-05-11\nlow: .inf\nhigh: 1e400 C\nrain: .nan\n'],
    ['a year that is none', DAY, 'date: 9999-05-11\nlow: 8 C\n'],
    ['a list of numbers', DAY, '- 1\n'.repeat(200_000)],
    ['control characters', DAY, 'date: 2026-05-11\nlow: "8 \\e[31mC"\n'],
  ])('%s', async (_, file, text) => {
    const root = smallBook()
    put(root, file, text)
    const { status, out } = await run(root, ['check'])
    expect([status < 2, out]).toEqual([true, expect.stringContaining(file)])
    for (const report of ['pressure', 'cover', 'today', 'heat']) await run(root, [report])
  })
})

describe('P4: a station with a very long export', () => {
  test.each([
    ['of nothing but commas', ','.repeat(4_000_000)],
    ['of zeros', '\0'.repeat(8_000_000)],
    ['of rows of a hundred thousand cells', `${','.repeat(100_000)}\n`.repeat(60)],
    ['with rows of thousands of cells', `${','.repeat(4_999)}\n`.repeat(60)],
  ])('a file %s is told', async (_, text) => {
    const root = smallBook()
    const file = join(folder(), 'station.csv')
    writeFileSync(file, text)
    const before = below(root)
    for (const args of [
      ['weather', file],
      ['sprays', file, '--map', file],
    ])
      expect((await run(root, ['import', ...args, '--yes'])).status).toBe(2)
    expect(below(root)).toEqual(before)
  })

  test('is read or refused, within limits of time and memory', { timeout: 600_000 }, async () => {
    const root = smallBook()
    const file = join(folder(), 'station.csv')
    const count = times(100_000, 1_000_000)
    const from = Date.UTC(2026, 0, 1)
    const step = (280 * 86_400_000) / count
    const lines = Array.from(
      { length: count },
      (_, at) =>
        `${new Date(from + at * step).toISOString().slice(0, 19)},${(at % 300) / 10},${at % 100},0\n`,
    )
    writeFileSync(file, `time,temperature_c,humidity_pct,rain_mm\n${lines.join('')}`)
    const { status, signal, stderr } = await startProgram([
      ...['import', 'weather', file, '--yes', '--ledger', root, '--as-of', AS_OF],
    ]).ended
    expect([signal, stderr.match(/\n\s+at /)]).toEqual([null, null])
    expect(status).toBeLessThan(3)
  })
})

describe('P5: `calibrate --save` killed at a random moment', () => {
  test('the record of the sprayer is whole, old or new', { timeout: 600_000 }, async () => {
    const root = smallBook()
    const sprayer = join(root, 'sprayers/mounted.yaml')
    // Of whole hundredths, so that each prints as it is.
    const flowAt = (at: number) => (400 + at) / 100
    const args = (flow: number) => [
      ...['calibrate', '--flow', `${flow} L/min`, '--speed', '5 km/h', '--width', '2 m', '--save'],
      ...['--ledger', root, '--as-of', AS_OF],
    ]
    const whole = (await startProgram(args(6)).ended).milliseconds
    const kept = new Set([readFileSync(sprayer, 'utf8')])
    const count = times(8, 100)
    let killed = 0
    for (let at = 0; at < count; at += 1) {
      const running = startProgram(args(flowAt(at)))
      const timer = setTimeout(() => running.child.kill('SIGKILL'), (whole * (at + 1)) / count)
      const { status, signal } = await running.ended
      clearTimeout(timer)
      if (signal !== null) killed += 1
      const text = readFileSync(sprayer, 'utf8')
      const old = [...kept].at(-1)
      const fresh = [...kept][0]!.replace(/flow: \S+ L\/min/, `flow: ${flowAt(at)} L/min`)
      expect([old, fresh]).toContain(text)
      if (status === 0) expect(text).toBe(fresh)
      kept.add(text)
    }
    expect(killed).toBeGreaterThan(0)
    expect((await startProgram(args(9)).ended).status).toBe(0)
    expect(readFileSync(sprayer, 'utf8')).toContain('flow: 9 L/min')
  })
})

describe('P6: nothing is written through a link out of the ledger', () => {
  const NEW = ['--yes', '--anyway']
  const WORK = [
    'note',
    'work',
    '--date',
    '2026-05-11',
    '--block',
    'upper',
    '--job',
    'mowing',
    '--hours',
    '1',
    ...NEW,
  ]
  const STATION =
    'time,temperature_c,humidity_pct,rain_mm\n2026-05-11T00:00,12,70,0\n2026-05-11T01:00,11,70,0\n'
  const saveTo = (kind: string) => ['note', kind, '--name', 'New One', ...NEW]
  test.each<[what: string, link: string, args: readonly string[]]>([
    ['all seasons', 'seasons', WORK],
    ['a season', 'seasons/2026', WORK],
    ['a kind', 'seasons/2026/work', WORK],
    ['weather', 'seasons/2026/weather', ['note', 'weather', '--day', '2026-05-11 8 21 4', ...NEW]],
    ['varieties', 'varieties', [...saveTo('variety'), '--colour', 'white']],
    ['sprayers', 'sprayers', [...saveTo('sprayer'), '--tank', '100 L']],
    [
      'sprayers of a calibration',
      'sprayers',
      ['calibrate', '--flow', '6 L/min', '--speed', '5 km/h', '--width', '2 m', '--save', '--tank', '200 L'],
    ],
    ['an import', 'seasons/2026', ['import', 'weather', 'STATION', '--yes']],
    ['what is kept', '.rowbook', ['note', '--amend', 'ENTRY', '--hours', '9', '--yes']],
  ])('%s', async (_, link, args) => {
    const entry = 'seasons/2026/work/2026-03-03-upper.yaml'
    const book = () =>
      smallBook({
        'seasons/2026/work.yaml': null,
        [entry]: 'date: 2026-03-03\nblock: upper\njob: mowing\nhours: 1\n',
      })
    const [root, sound] = [book(), book()]
    const outside = join(folder(), 'outside')
    if (existsSync(join(root, link))) renameSync(join(root, link), outside)
    else mkdirSync(outside)
    symlinkSync(outside, join(root, link))
    const station = join(folder(), 'station.csv')
    writeFileSync(station, STATION)
    const texts = () => below(outside).map((file) => [file, textOf(join(outside, file))])
    const before = texts()
    const typed = args.map((one) => (one === 'STATION' ? station : one === 'ENTRY' ? entry : one))
    const { status, out, err } = await run(root, typed)
    expect([status > 0, `${out}${err}`]).toEqual([true, expect.stringMatching(/\blink\b/)])
    expect(texts()).toEqual(before)
    // Without the link, the same command writes.
    const { status: written, err: why } = await run(sound, typed)
    expect([written, why]).toEqual([0, ''])
  })
})

function textOf(path: string): string | null {
  try {
    return readFileSync(path, 'utf8')
  } catch {
    return null
  }
}
