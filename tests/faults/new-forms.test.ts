import { spawnSync } from 'node:child_process'
import {
  lstatSync,
  mkdtempSync,
  readdirSync,
  readFileSync,
  renameSync,
  rmSync,
  symlinkSync,
  writeFileSync,
} from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { describe, expect, test } from 'vitest'
import { KEPT } from '../../src/ledger/write/kept.ts'
import { flat } from '../commands/run.ts'
import { AS_OF, smallBook } from './book.ts'
import { runHere } from './in-process.ts'

const ENTRY = 'seasons/2026/work/2026-03-03-upper.yaml'
const TEXT = 'date: 2026-03-03\nblock: upper\njob: mowing\nhours: 1 # by hand\n'
const SPRAYER = 'sprayers/mounted.yaml'

const bookWith = (files: Readonly<Record<string, string | null>> = {}) =>
  smallBook({ 'seasons/2026/work.yaml': null, [ENTRY]: TEXT, ...files })

const bytesOf = (root: string, file: string) => readFileSync(join(root, file), 'utf8')

/** Every file of a ledger, without those that the program keeps for itself. */
function standing(root: string): Record<string, string> {
  const names = readdirSync(root, { recursive: true, encoding: 'utf8' }).filter(
    (name) => !name.startsWith('.rowbook') && lstatSync(join(root, name)).isFile(),
  )
  return Object.fromEntries(names.sort().map((name) => [name, readFileSync(join(root, name), 'latin1')]))
}

/** Runs a command, and checks its exit status and that it prints no control codes. */
async function run(root: string, args: readonly string[], status: number | readonly number[]) {
  const { status: got, out, err, fault } = await runHere([...args, '--ledger', root], root)
  expect(fault).toBeNull()
  expect([status].flat(), `${out}${err}`).toContain(got)
  expect(`${out}${err}`).not.toMatch(/[\0-\x08\x0b-\x1f\x7f-\x9f\u200b-\u200f\u202a-\u202e\u2066-\u2069]/)
  return { out, err }
}

/** Checks that a command is refused with what to do, and that the ledger is unchanged. */
async function refused(root: string, args: readonly string[], told: RegExp) {
  const before = standing(root)
  const { err } = await run(root, args, 2)
  expect(flat(err)).toMatch(told)
  expect(standing(root)).toEqual(before)
}

const amending = (file: string, ...more: string[]) => [
  'note',
  '--amend',
  file,
  ...(more.length > 0 ? more : ['--hours', '2']),
]

describe('N1: all of an entry but the changed value stays the same, byte for byte', () => {
  test.each([
    ['comments', TEXT],
    ['Windows line ends', TEXT.replaceAll('\n', '\r\n')],
    ['a byte-order mark', `\ufeff${TEXT}`],
    ['both', `\ufeff${TEXT.replaceAll('\n', '\r\n')}`],
    ['no line end', TEXT.trimEnd()],
    ['document marks', `---\n${TEXT}...\n`],
    ['braces', '{ date: 2026-03-03, block: upper, job: mowing, hours: 1, } # c\n'],
    ['lines without anything, comments around', `# top\n\n${TEXT}\n# tail\n`],
    ['quotes', `date: '2026-03-03'\nblock: "upper"\njob: mowing\nhours: 1\n`],
  ])('%s', async (_, text) => {
    const root = bookWith({ [ENTRY]: text })
    await run(root, amending(ENTRY), 0)
    expect(bytesOf(root, ENTRY)).toBe(text.replace('hours: 1', 'hours: 2'))
  })

  test('undoing a change keeps the byte order mark', async () => {
    const root = bookWith({ [ENTRY]: `\ufeff${TEXT}` })
    await run(root, amending(ENTRY), 0)
    await run(root, ['note', '--undo', '--yes'], 0)
    expect(bytesOf(root, ENTRY)).toBe(`\ufeff${TEXT}`)
  })

  test('an entry of a list, the others untouched', async () => {
    const list =
      '- { date: 2026-03-01, block: upper, job: a, hours: 1 }\n- { date: 2026-03-04, block: upper, job: b, hours: 1 } # c\n'
    const root = bookWith({ 'seasons/2026/work.yaml': list })
    await run(root, amending('seasons/2026/work.yaml:2'), 0)
    expect(bytesOf(root, 'seasons/2026/work.yaml')).toBe(list.replace(/1 \} # c/, '2 } # c'))
  })
})

describe('N2: a file that is not an entry, or not a plain file, is not changed', () => {
  test.each([
    ['a path out of the ledger', '../../etc/passwd', /not an entry of a season/],
    ['a path from the root', '/etc/passwd', /not an entry of a season/],
    ['a folder', 'seasons/2026/work', /there is no entry in/],
    ['the site', 'vineyard.yaml', /not an entry of a season/],
    ['a product', 'products/sulphur.yaml', /not an entry of a season/],
    ['weather', 'seasons/2026/weather.csv', /there is no entry in/],
    ['no file', 'seasons/2026/work/none.yaml', /there is no entry in/],
    ['no such line', `${ENTRY}:99999999999999999999`, /is on line/],
    ['a name that steers a terminal', 'seasons/\u001b[31m/x.yaml', /not an entry of a season/],
    ['the last one where none is known', 'last', /no entry is known/],
  ])('%s', async (_, file, told) => {
    await refused(bookWith(), amending(file), told)
  })

  test.each([
    ['an anchor', 'date: 2026-03-03\nblock: upper\njob: mowing\nhours: &h 1\n', /can not begin with `&`/],
    ['a tag', 'date: 2026-03-03\nblock: upper\njob: mowing\nhours: !!int 1\n', /can not begin with `!`/],
    ['more than a megabyte', `# ${'x'.repeat(1_500_000)}\n${TEXT}`, /larger than 1 MB/],
    ['a zero byte', TEXT.replace('mowing', 'mow\0ing'), /control character/],
    ['a block of lines', `${TEXT}note: |\n  one\n  two\n`, /written in a way/],
  ])('a file with %s', async (_, text, told) => {
    await refused(bookWith({ [ENTRY]: text }), amending(ENTRY, '--note', 'new', '--hours', '2'), told)
  })

  test('links, in and out of the ledger, and a pipe', async () => {
    const outside = join(mkdtempSync(join(tmpdir(), 'rowbook-')), 'x.yaml')
    writeFileSync(outside, TEXT)
    const link = bookWith()
    rmSync(join(link, ENTRY))
    symlinkSync(outside, join(link, ENTRY))
    await refused(link, amending(ENTRY), /a link/)
    expect(readFileSync(outside, 'utf8')).toBe(TEXT)
    const inside = bookWith()
    renameSync(join(inside, ENTRY), join(inside, `${ENTRY}.txt`))
    symlinkSync(`${ENTRY.split('/').at(-1)}.txt`, join(inside, ENTRY))
    await refused(inside, amending(ENTRY), /a link/)
    const pipe = bookWith()
    rmSync(join(pipe, ENTRY))
    expect(spawnSync('mkfifo', [join(pipe, ENTRY)]).status).toBe(0)
    await refused(pipe, amending(ENTRY), /not a plain file/)
  })
})

test.each<[string, string]>([
  ['no note', ''],
  ['a name of 100 000 letters', undoNote({ folder: 'blocks', stem: 'x'.repeat(100_000) })],
  ['two dots', undoNote({ folder: 'blocks', stem: '..' })],
  ['a line break', undoNote({ folder: 'seasons/2026/work', stem: '2026\n' })],
  ['another folder', undoNote({ folder: '.git', stem: 'config' })],
  ['no file', JSON.stringify({ did: 'new', files: [] })],
  ['the prototype', '{"__proto__":1}'],
  ['brackets without end', '['.repeat(200_000)],
  [
    'what steers a terminal',
    JSON.stringify({
      did: 'undone',
      files: [{ file: 'seasons/2026/work/\u001b[31mx.yaml', kept: `${KEPT}/x.yaml` }],
    }),
  ],
])('N3: a planted note of what was written last takes nothing away: %s', async (_, note) => {
  const root = bookWith({ [`${KEPT}/last.json`]: note })
  await refused(root, ['note', '--undo', '--yes'], /no entry is known|no longer there|taken back already/)
})

function undoNote(file: { folder: string; stem: string }): string {
  return JSON.stringify({ did: 'new', files: [{ ...file, hash: '0'.repeat(64), before: [] }] })
}

describe('N4: a saved calibration', () => {
  const saving = (...more: string[]) => [
    ...['calibrate', '--flow', '6 L/min', '--speed', '5 km/h', '--width', '2 m', '--save'],
    ...more,
  ]

  test.each([
    ['comments', 'name: M # mine\ntank: 200 L\nflow: 5.5 L/min # measured\nspeed: 5 km/h\n'],
    [
      'Windows line ends and a mark',
      '\ufeff# top\r\nname: M\r\ntank: 200 L\r\nflow: 5.5 L/min # x\r\nspeed: 5 km/h',
    ],
    ['braces', '{ name: M, tank: 200 L, flow: 5.5 L/min, speed: 5 km/h } # c\n'],
  ])('leaves all else as it stands: %s', async (_, text) => {
    const root = bookWith({ [SPRAYER]: text })
    await run(root, saving(), 0)
    const now = bytesOf(root, SPRAYER).replace(/(?:\r?\n|, )calibrated: 2026-10-05/, '')
    expect(now).toBe(text.replace('5.5 L/min', '6 L/min'))
  })

  test.each([
    ['a list without end', 'name: M\ntank: 200 L\nflow: [1\n'],
    ['a key twice', 'name: M\ntank: 200 L\nflow: 1 L/min\nflow: 2 L/min\n'],
  ])('a record that is broken is named, and no other is made beside it: %s', async (_, text) => {
    await refused(bookWith({ [SPRAYER]: text }), saving('--tank', '12L'), /sprayers\/mounted\.yaml:/)
  })

  test.each([
    ['of a sprayer that stands', SPRAYER, saving()],
    ['of a new one', 'sprayers/lance.yaml', saving('lance', '--tank', '10L')],
  ])('what was saved %s is what `--undo` takes back, not the entry before', async (_, file, save) => {
    const root = bookWith()
    await run(
      root,
      ['note', 'work', '--date', '2026-05-11', '--block', 'upper', '--job', 'mowing', '--yes'],
      0,
    )
    const before = standing(root)
    await run(root, save, 0)
    expect(standing(root)).not.toEqual(before)
    const { out } = await run(root, ['note', '--undo', '--yes'], 0)
    expect(flat(out)).toContain(file)
    expect(standing(root)).toEqual(before)
  })

  test('a record that is a link', async () => {
    const root = bookWith()
    renameSync(join(root, SPRAYER), join(root, 'x.txt'))
    symlinkSync('../x.txt', join(root, SPRAYER))
    await refused(root, saving('--tank', '12L'), /a link/)
  })

  test.each(['../x', 'a/b', '\u001b[31m', '.', 'CON', '-', '', 'x'.repeat(300)])('named %j', async (name) => {
    await refused(bookWith(), saving(name, '--tank', '10L'), /not an id|too long/)
  })
})

const MARKUP = [
  '<script>alert(1)</script>',
  '"><img src=x onerror=alert(1)>',
  '</title><b>x',
  `&amp;'"\`\${x}`,
]

test.each(MARKUP)('N5: names on printed pages: %j', async (name) => {
  const block = `name: ${JSON.stringify(name)}\nvariety: palava\nrows: 10\nrow_length: 80 m\nrow_spacing: 2 m\nvine_spacing: 1 m\n`
  const root = bookWith({
    'blocks/upper.yaml': block,
    [SPRAYER]: `name: ${JSON.stringify(name)}\ntank: 200 L\n`,
  })
  const fill = [
    '--block',
    'upper',
    '--product',
    'sulphur=3kg/ha',
    '--water',
    '300 L/ha',
    '--sprayer',
    'mounted',
  ]
  for (const args of [
    ['sheet', 'scouting'],
    ['sheet', 'crop'],
    ['sheet', 'sampling'],
    ['sheet', 'spray', ...fill],
    ['today'],
  ]) {
    const { out } = await run(root, [...args, '--html', '-'], [0, 1])
    expect(out).toContain('</html>')
    expect(out).not.toMatch(/<script|<img|<b>x/)
  }
})

describe('N6: names of new records', () => {
  const NEW = {
    block: ['--variety', 'palava', '--vines', '180', '--row-spacing', '2m', '--vine-spacing', '1.2m'],
    variety: ['--colour', 'white'],
    sprayer: ['--tank', '15L'],
  }
  const kinds = Object.entries(NEW)

  test.each(['..', '.', '', '\u202e', 'a\nb', '\u001b[31mred', '~'])('%j is refused', async (name) => {
    for (const [kind, more] of kinds)
      await refused(bookWith(), ['note', kind, '--name', name, ...more, '--yes'], /name|Nothing written/)
  })

  test.each(['../../x', 'a/b\\c', 'x'.repeat(300), 'CON', '<b>', '*y', '- x', '{a', 'null', '12', '"q"'])(
    '%j makes one sound file in its folder',
    async (name) => {
      for (const [kind, more] of kinds) {
        const root = bookWith()
        const before = Object.keys(standing(root))
        await run(root, ['note', kind, '--name', name, ...more, '--yes'], 0)
        const made = Object.keys(standing(root)).filter((file) => !before.includes(file))
        expect(made).toEqual([
          expect.stringMatching(/^(?:blocks|varieties|sprayers)\/[a-z0-9-]{1,60}\.yaml$/),
        ])
        const { out } = await run(root, ['check', '--json'], [0, 1])
        expect(JSON.parse(out).findings.filter(({ file }: { file: string }) => file === made[0])).toEqual([])
      }
    },
  )

  test.each(['Upper', 'UPPER', 'upper'])('%j exists already', async (name) => {
    await refused(bookWith(), ['note', 'block', '--name', name, ...NEW.block, '--yes'], /already/)
  })

  test.each(['0', '-1', '9e15', '1e309', '1.5'])('%s vines', async (vines) => {
    const args = ['note', 'block', '--name', 'New', ...NEW.block, '--yes']
    args[args.indexOf('180')] = vines
    await refused(bookWith(), args, /--vines/)
  })

  test.each(['a\nb', '\u001b[31m'])('no vineyard named %j is started', async (name) => {
    const folder = mkdtempSync(join(tmpdir(), 'rowbook-'))
    const { status, err } = await runHere(['start', 'n', '--name', name, '--latitude', '51', '--yes'], folder)
    expect([status, err]).toEqual([2, expect.stringMatching(/the name of the vineyard/)])
    expect(readdirSync(folder)).toEqual([])
  })
})

describe('N7: exports of stations', () => {
  const HEAD = 'time,temperature_c,humidity_pct,rain_mm\n'
  const LINES = Array.from(
    { length: 50 },
    (_, at) => `2026-06-0${1 + Math.floor(at / 24)}T${String(at % 24).padStart(2, '0')}:00,17,80,0\n`,
  )

  async function imported(data: string | Uint8Array, ...more: string[]) {
    const root = bookWith({ 'seasons/2026/weather.csv': null })
    const file = join(mkdtempSync(join(tmpdir(), 'rowbook-')), 'in.csv')
    writeFileSync(file, data)
    return { root, args: ['import', 'weather', file, '--yes', ...more] }
  }

  test.each<[string, string | Uint8Array, RegExp]>([
    ['nothing', '', /holds nothing/],
    ['a heading alone', HEAD, /no column of times/],
    [
      'a quote that is never closed',
      `${HEAD}"2026-06-01T00:00,17,80,0\n${LINES.join('')}`,
      /no column of times|no time/,
    ],
    ['quotes alone', '"'.repeat(500_000), /more than 10000 letters/],
    ['one long line', 'x'.repeat(500_000), /more than 10000 letters/],
    ['100 000 columns', `${'c,'.repeat(100_000)}\n${'1,'.repeat(100_000)}\n`, /more than 10000 letters/],
    ['more than 64 MB', HEAD + LINES.join('').repeat(60_000), /larger than 64 MB/],
    ['zero bytes', `${HEAD}2026-06-01T00:00,1\u00007,80,0\n`, /no number/],
    ['any byte', Uint8Array.from({ length: 100_000 }, (_, at) => at % 256), /not valid UTF-8/],
    ['the same heading twice', 'time,temperature_c,temperature_c\n2026-06-01T00:00,17,18\n', /may each be/],
    ['a year that no vineyard has', `${HEAD}9999-12-31T23:00,17,80,0\n`, /no time that rowbook reads/],
  ])('%s: told, and nothing written', async (_, data, told) => {
    const { root, args } = await imported(data)
    await refused(root, args, told)
  })

  test('formulas are not written into the ledger', async () => {
    const { root, args } = await imported(
      `${HEAD}${LINES.join('')}2026-06-04T00:00,=1+1,@SUM(A1),"=HYPERLINK(""http://x"")"\n2026-06-04T01:00,-3.5,+80,0\n`,
    )
    const { out } = await run(root, args, 0)
    expect(out).toContain('is no number')
    const written = bytesOf(root, 'seasons/2026/weather.csv')
    expect(written).not.toMatch(/[=@]/)
    expect(written).toMatch(/2026-06-04T00:00,,,\n2026-06-04T01:00,-3\.5,\+80,0\n$/)
  })

  test.each([
    ['UTF-16', 'utf16le', '\ufeff'],
    ['UTF-16 without its mark', 'utf16le', ''],
  ] as const)('%s is read', async (_, encoding, mark) => {
    const { root, args } = await imported(Buffer.from(mark + HEAD + LINES.join(''), encoding))
    await run(root, args, 0)
    expect(bytesOf(root, 'seasons/2026/weather.csv').split('\n')).toHaveLength(52)
  })

  test('the hour that clocks skip, the hour that they show twice, and rows of five minutes', async () => {
    for (const day of ['2026-03-29', '2025-10-26', '2026-06-01']) {
      const hours = day === '2025-10-26' ? [0, 1, 2, 2, 3, 4] : [0, 1, 2, 3, 4]
      const rows = hours.flatMap((hour, at) =>
        Array.from(
          { length: 12 },
          (_, part) =>
            `${day}T0${hour}:${String(part * 5).padStart(2, '0')},${10 + at},80,${at === 3 && part < 4 ? 0.2 : 0}\n`,
        ),
      )
      const { root, args } = await imported(HEAD + rows.join(''))
      const { out } = await run(root, args, 0)
      expect(out).toMatch(new RegExp(`${hours.length} rows added|${new Set(hours).size} rows added`))
      await run(root, ['heat', '--season', '2026', '--json'], [0, 1])
    }
  })

  test.each([
    '',
    ';',
    '31 feb 1 2 3',
    '9999-12-31 8 21 4',
    '\u001b[31m 1 2 3',
    'x'.repeat(100_000),
    '2026-06-01 -999 999 9e9',
  ])('a day of weather %j', async (day) => {
    await refused(bookWith(), ['note', 'weather', '--day', day, '--yes'], /--day|Nothing written/)
  })
})

describe('N9: a second entry of one day and block, whose file would have the same name', () => {
  const DAY = ['--block', 'upper', '--date', '2026-06-20', '--as-of', AS_OF]
  test.each([
    ['a pick', ['pick', '--weight', '900 kg'], ['pick', '--weight', '950 kg'], 'inside-days-before-harvest'],
    [
      'a spray',
      ['spray', '--water', '300 L/ha', '--product', 'sulphur=30 kg/ha'],
      ['spray', '--water', '400 L/ha', '--product', 'sulphur=30 kg/ha', '--time', '18:00-19:00'],
      'over-rate',
    ],
  ])('%s keeps the error that the first one has too, and is not written', async (_, first, second, error) => {
    const root = bookWith()
    await run(root, ['note', ...first, ...DAY, '--yes', '--anyway'], 0)
    const before = standing(root)
    const { out } = await run(root, ['note', ...second, ...DAY, '--yes'], 1)
    expect(out).toContain(error)
    expect(out).toContain('2026-06-20-upper-2.yaml')
    expect(standing(root)).toEqual(before)
  })
})

describe('N8: clearances', () => {
  const spray = (cleared: string) =>
    `date: 2026-06-14\nblocks: [upper]\nwater: 300 L/ha\nproducts:\n  - { product: sulphur, rate: 30 kg/ha, for: powdery }\ncleared: ${cleared}\n`
  test.each([
    '{ by: "R\\u001b[31m", on: 2026-06-20, pick_from: 2026-07-01 }',
    '{ by: "a\\nb", on: 2026-06-20, pick_from: 2026-07-01 }',
    '{ by: "", on: 2026-06-20, pick_from: 2026-07-01 }',
    '{ by: R, on: 2026-06-20, pick_from: 9999-12-31 }',
    '{ by: R, on: 2026-06-20 }',
    '[]',
    'yes',
  ])('%s clears nothing, and is told with its line', async (cleared) => {
    const root = bookWith({ 'seasons/2026/sprays/2026-06-14-upper.yaml': spray(cleared) })
    for (const command of ['check', 'ready', 'today']) {
      const { out, err } = await run(root, [command], 1)
      expect(`${out}${err}`.replace(/\s/g, '')).toContain('sprays/2026-06-14-upper.yaml:6')
    }
  })
})
