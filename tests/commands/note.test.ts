import { spawn } from 'node:child_process'
import { existsSync, mkdirSync, readdirSync, readFileSync, symlinkSync, writeFileSync } from 'node:fs'
import { join } from 'node:path'
import { fileURLToPath } from 'node:url'
import { describe, expect, it } from 'vitest'
import { makeLedger } from '../ledger/make.ts'
import { flat, run, runJson } from './run.ts'

const SPRAYS = `- date: 2026-06-01
  time: 18:00-19:10
  blocks: [upper, lower]
  sprayer: mounted
  water: 300 L/ha
  products:
    - { product: sulphur, rate: 3 kg/ha, for: powdery }
    - { product: copper, rate: 1 kg/ha, for: downy }
  stage: 57
  weather: { wind: 1.5 m/s, from: W, temperature: 17 C, humidity: 60 % }
  operator: A.
  note: windy at the end
- date: 2026-06-10
  blocks: [lower]
  sprayer: mounted
  water: 280 L/ha
  products:
    - { product: sulphur, rate: 2.50 kg/ha, for: powdery }
`
const book = (files: Record<string, string | null> = {}) =>
  makeLedger({ 'seasons/2026/sprays.yaml': SPRAYS, ...files })
const note = (root: string, ...args: string[]) =>
  run(['note', ...args, '--ledger', root, '--as-of', '2026-06-24'])
const written = (root: string, kind = 'sprays') => {
  const folder = join(root, 'seasons/2026', kind)
  return existsSync(folder) ? readdirSync(folder).sort() : []
}
const textOf = (root: string, name: string, kind = 'sprays') =>
  readFileSync(join(root, 'seasons/2026', kind, name), 'utf8')

const FULL = [
  'spray',
  '--date',
  'yesterday',
  '--time',
  '18:00-19:10',
  '--block',
  'upper',
  '--sprayer',
  'mounted',
  '--water',
  '300 L/ha',
  '--product',
  'sulphur=3kg/ha',
  '--for',
  'powdery',
]

describe('note with all fields as options', () => {
  it('writes a new file, shows it as it stands, and says what follows', () => {
    const root = book()
    const { status, stdout, stderr } = note(root, ...FULL)
    expect(stderr).toBe('')
    expect(status).toBe(0)
    expect(written(root)).toEqual(['2026-06-23-upper.yaml'])
    const text = textOf(root, '2026-06-23-upper.yaml')
    expect(text).toBe(`# yaml-language-server: $schema=../../../.rowbook/schema/spray.json
date: 2026-06-23
time: 18:00-19:10
blocks: [upper]
sprayer: mounted
water: 300 L/ha
products:
  - { product: sulphur, rate: 3 kg/ha, for: powdery }
`)
    for (const line of text.split('\n').slice(1, -1)) expect(stdout).toContain(`  ${line}\n`)
    expect(stdout).toContain('Written: seasons/2026/sprays/2026-06-23-upper.yaml')
    // 24 h from 19:10; 21 d after the 23rd is the 14th by the calendar, the 15th after full days; 7 d at the least.
    expect(stdout).toContain('Keep out until Wed 24 Jun 19:10 (re-entry interval, REI: 24 h).')
    expect(stdout.replace(/\n/g, ' ')).toContain(
      'Pick from Wed 15 Jul, or Tue 14 Jul if the day of spraying counts as day 0',
    )
    expect(stdout).toContain('Again from Tue 30 Jun.')
    expect(stdout).toContain('The label decides. Wear what it names.')
    expect(run(['check', '--ledger', root, '--as-of', '2026-06-24']).stdout).toContain('0 errors')
  })

  it('gives the file and the entry as JSON, in the units of the program', () => {
    const root = book()
    const { status, json } = runJson([
      'note',
      'sample',
      '--block',
      'upper',
      '--berries',
      '100',
      '--brix',
      '19.6',
      '--berry-weight',
      '0.05oz',
      '--ledger',
      root,
      '--as-of',
      '2026-09-01',
    ])
    expect(status).toBe(0)
    expect(json).toMatchObject({ rowbook: 1, report: 'note', asOf: '2026-09-01', season: 2026, findings: [] })
    expect(json.data.file).toBe('seasons/2026/samples/2026-09-01-upper.yaml')
    expect(json.data.entry).toMatchObject({ date: '2026-09-01', block: 'upper', berries: 100, brix: [19.6] })
    expect(json.data.entry.berryWeight.unit).toBe('g')
    expect(json.data.entry.berryWeight.value).toBeCloseTo(0.05 * 28.349523125, 9)
    expect(textOf(root, '2026-09-01-upper.yaml', 'samples')).toContain('berry_weight: 0.05 oz\n')
  })

  it('writes every kind of entry, and check takes it', () => {
    const root = makeLedger()
    const lines = [
      ['scouting', '--looked-at', 'bunches=100', '--found', 'powdery.bunches=4'],
      ['sample', '--ph', '3.05'],
      ['stage', '--stage', '65', '--share', '50%'],
      ['crop', '--bunches-per-vine', '18,22,19', '--at', 'lag'],
      ['pick', '--weight', '1820kg', '--people', '6'],
      ['work', '--job', 'leaf removal', '--hours', '6', '--water', '12mm'],
    ]
    for (const line of lines)
      expect(note(root, ...line, '--block', 'lower', '--date', 'mon').status, line[0]).toBe(0)
    const { json } = runJson(['check', '--ledger', root, '--as-of', '2026-06-24'])
    expect(json.data.records).toMatchObject({
      scouting: 1,
      samples: 1,
      stages: 1,
      crop: 1,
      picks: 1,
      work: 1,
    })
    expect(json.findings.filter((one: { name: string }) => /key|type|unit/.test(one.name))).toEqual([])
  })

  it('puts an entry into the season of its date', () => {
    const root = book()
    expect(
      note(root, 'work', '--block', 'upper', '--job', 'pruning', '--date', '2025-11-20').stdout,
    ).toContain('seasons/2026/work')
    expect(
      note(root, 'work', '--block', 'upper', '--job', 'pruning', '--date', '2025-10-20').stdout,
    ).toContain('seasons/2025/work')
    expect(
      note(root, 'work', '--block', 'upper', '--job', 'x', '--date', '2025-10-20', '--season', '2026').status,
    ).toBe(2)
  })
})

describe('note --like', () => {
  it('takes the same again, without what was seen on that day', () => {
    const root = book()
    expect(note(root, 'spray', '--like', '2026-06-01', '--time', '18:00-19:00').status).toBe(0)
    const text = textOf(root, '2026-06-24-upper-lower.yaml')
    expect(text).toContain('date: 2026-06-24\ntime: 18:00-19:00\nblocks: [upper, lower]\n')
    expect(text).toContain('operator: A.')
    for (const gone of ['stage', 'weather', 'note:']) expect(text).not.toContain(gone)
  })

  it('takes the newest, or the newest of a block, with changes on top', () => {
    const root = book()
    expect(note(root, 'spray', '--like', 'last', '--dry-run').stdout).toContain('rate: 2.50 kg/ha')
    const upper = note(
      root,
      'spray',
      '--like',
      'last',
      '--block',
      'upper',
      '--product',
      'sulphur=4kg/ha',
      '--dry-run',
    ).stdout
    expect(upper).toContain('blocks: [upper]')
    expect(upper).toContain('  - { product: sulphur, rate: 4 kg/ha, for: powdery }')
    expect(upper).not.toContain('copper')
    expect(upper).toContain('water: 300 L/ha')
    expect(note(root, 'spray', '--like', 'last', '--block', 'all', '--dry-run').stdout).toContain(
      'blocks: [lower, upper]',
    )
  })

  it('says where there is no such entry', () => {
    const root = book()
    const { status, stderr } = note(root, 'pick', '--like', 'last')
    expect(status).toBe(2)
    expect(stderr).toContain('no pick is recorded to start from')
    expect(note(root, 'spray', '--like', '2026-05-01').stderr).toContain('no spray on 2026-05-01')
  })

  it('takes no entry that is still to come', () => {
    const root = book({ 'seasons/2026/stages.yaml': '- { date: 2026-06-30, block: upper, stage: 71 }\n' })
    expect(note(root, 'stage', '--like', 'last', '--stage', '65').stderr).toContain('no stage')
  })
})

describe('note without a terminal', () => {
  it('says all that is missing, and writes nothing', () => {
    const root = book()
    const { status, stderr } = note(root, 'spray', '--water', '300 L/ha')
    expect(status).toBe(2)
    expect(stderr).toContain('--block is missing')
    expect(stderr).toContain('--product is missing')
    expect(note(root, 'spray', '--block', 'upper', '--product', 'sulphur').stderr).toContain(
      'the dose of sulphur',
    )
    expect(note(root, 'spray', '--block', 'upper', '--product', 'sulphur=3 g/L').stderr).toContain(
      '--water is missing',
    )
    expect(note(root, 'sample', '--block', 'upper').stderr).toContain('the sample has no measurement')
    expect(written(root)).toEqual([])
  })

  it('refuses what can not be read, naming the option and the way out', () => {
    const root = book()
    const rows: [string[], string[]][] = [
      [
        ['spray', '--date', '31/6'],
        ['--date', 'June has no day 31'],
      ],
      [
        [...FULL, '--wind', '2'],
        ['--wind: `2` has no unit', 'm/s'],
      ],
      [
        ['sample', '--block', 'upper', '--brix', '19,6'],
        ['two ways', '19.6'],
      ],
      [
        ['sample', '--block', 'upper', '--sprayer', 'mounted', '--ph', '3'],
        ['--sprayer is no field of a sample entry'],
      ],
      [['sample', '--block', 'all', '--ph', '3'], ['is of one block']],
      [['spraay'], ['`spraay` is not an entry kind', '`spray`']],
      [['stage', '--block', 'upper', '--stage', '66.5'], ['BBCH']],
      [[...FULL, '--block', 'uper'], ['no block `uper`']],
    ]
    for (const [line, parts] of rows) {
      const { status, stderr, stdout } = note(root, ...line)
      expect(status, line.join(' ')).toBe(2)
      expect(stdout).toBe('')
      for (const part of parts) expect(stderr).toContain(part)
    }
    expect(written(root)).toEqual([])
  })

  it('shows what an entry would cause; errors stop it unless it is what happened', () => {
    const root = book()
    const ten = FULL.map((word) => word.replace('sulphur=3kg/ha', 'sulphur=30kg/ha'))
    const stopped = note(root, ...ten)
    expect(stopped.status).toBe(1)
    expect(stopped.stdout).toContain('seasons/2026/sprays/2026-06-23-upper.yaml:8:31  error  over-rate')
    expect(stopped.stdout).toContain('  - { product: sulphur, rate: 30 kg/ha, for: powdery }\n')
    expect(stopped.stdout).toContain('Not written')
    expect(stopped.stderr).toContain('Nothing written')
    expect(written(root)).toEqual([])
    expect(note(root, ...ten, '--anyway').status).toBe(0)
    expect(written(root)).toEqual(['2026-06-23-upper.yaml'])
    const check = runJson(['check', '--ledger', root, '--as-of', '2026-06-24']).json
    const over = check.findings.find((one: { name: string }) => one.name === 'over-rate')
    expect(over).toMatchObject({ line: 8, column: 31, file: 'seasons/2026/sprays/2026-06-23-upper.yaml' })
  })

  it('does not repeat findings that were there before', () => {
    const root = book({
      'seasons/2026/sprays/2026-06-20-upper.yaml':
        'date: 2026-06-20\nblocks: [upper]\nwater: 300 L/ha\nproducts: [ { product: sulphur, rate: 60 kg/ha, for: powdery } ]\n',
    })
    const { status, stdout } = note(root, 'stage', '--block', 'upper', '--stage', '65')
    expect(status).toBe(0)
    expect(stdout).not.toContain('over-rate')
  })

  it('with --dry-run only shows', () => {
    const root = book()
    expect(note(root, ...FULL, '--dry-run')).toMatchObject({ status: 0 })
    expect(written(root)).toEqual([])
  })

  it('writes beside broken records, and says that it could not see all', () => {
    const root = book({ 'seasons/2026/picks.yaml': '- { date: 2026-06-01, block: upper }\n' })
    const { status, stderr } = note(root, ...FULL)
    expect(status).toBe(0)
    expect(stderr).toContain('The ledger has an error already')
  })

  it('keeps control characters and YAML of a note out of the file', () => {
    const root = book()
    const odd = 'a: b # c - { [x] }: "y" \'z\' no'
    expect(note(root, 'work', '--block', 'upper', '--job', odd).status).toBe(0)
    const { json } = runJson(['check', '--ledger', root, '--as-of', '2026-06-24'])
    expect(json.data.errors).toBe(0)
    const bad = note(root, 'work', '--block', 'upper', '--job', 'a\u001b[31mb')
    expect(bad.status).toBe(2)
    expect(bad.stdout).not.toContain('\u001b')
    expect(written(root, 'work')).toHaveLength(1)
  })

  it('writes through no link, and into no folder above', () => {
    const root = book()
    const outside = makeLedger()
    symlinkSync(outside, join(root, 'seasons/2026/work'))
    const { status, stderr } = note(root, 'work', '--block', 'upper', '--job', 'mowing')
    expect(status).toBe(2)
    expect(stderr).toContain('is a link or not a folder')
    expect(readdirSync(outside)).not.toContain('2026-06-24-upper.yaml')
  })

  it('uses the next free name where names are taken', () => {
    const root = book()
    mkdirSync(join(root, 'seasons/2026/stages'))
    writeFileSync(
      join(root, 'seasons/2026/stages/2026-06-24-upper.yaml'),
      'date: 2026-06-24\nblock: upper\nstage: 63\n',
    )
    expect(note(root, 'stage', '--block', 'upper', '--stage', '65').stdout).toContain(
      '2026-06-24-upper-2.yaml',
    )
    expect(textOf(root, '2026-06-24-upper.yaml', 'stages')).toContain('63')
  })
})

describe('an entry whose name is taken', () => {
  it('has its findings in the file that was written', () => {
    const root = book()
    expect(note(root, ...FULL).status).toBe(0)
    const { status, stdout } = note(root, ...FULL, '--anyway')
    expect(status).toBe(0)
    expect(stdout).toContain('Written: seasons/2026/sprays/2026-06-23-upper-2.yaml')
    expect(stdout).toMatch(/^seasons\/2026\/sprays\/2026-06-23-upper-2\.yaml:\d+:\d+ {2}(error|warning)/m)
  })
})

describe('several notes at once', () => {
  it('each get a file of their own, whole', async () => {
    const root = book()
    const program = fileURLToPath(new URL('../../bin/rowbook.js', import.meta.url))
    const one = (hours: number) =>
      new Promise<number | null>((resolve) => {
        const args = [
          program,
          'note',
          'work',
          '--block',
          'upper',
          '--job',
          'mowing',
          '--hours',
          String(hours),
          '--ledger',
          root,
          '--as-of',
          '2026-06-24',
          '--anyway',
        ]
        spawn('node', args, { stdio: 'ignore' }).on('close', resolve)
      })
    const statuses = await Promise.all([1, 2, 3, 4, 5, 6, 7, 8].map(one))
    expect(statuses).toEqual(Array(8).fill(0))
    const files = written(root, 'work')
    expect(files).toHaveLength(8)
    const hours = files.map((file) => Number(/hours: (\d)/.exec(textOf(root, file, 'work'))![1]))
    expect(hours.sort()).toEqual([1, 2, 3, 4, 5, 6, 7, 8])
  })
})

describe('one note for several blocks', () => {
  it('writes the same stage or work for each, all or none', () => {
    const root = book()
    const { status, stdout } = note(root, 'stage', '--block', 'all', '--stage', '65', '--date', '2026-06-14')
    expect([status, stdout.match(/seasons\/2026\/stages\/\S+/g)]).toEqual([
      0,
      ['lower', 'upper'].map((block) => `seasons/2026/stages/2026-06-14-${block}.yaml`),
    ])
    expect(readdirSync(join(root, 'seasons/2026/stages'))).toHaveLength(2)
    const wrong = note(root, 'stage', '--block', 'upper,lower', '--stage', '13', '--date', '2026-06-20')
    expect([wrong.status, readdirSync(join(root, 'seasons/2026/stages')).length]).toEqual([0, 4])
  })

  it.each([
    ['sample', '--brix', '19.0', 'one for each'],
    ['pick', '--weight', '900 kg', 'one for each'],
    ['work --job mowing', '--hours', '4', 'leave --hours out'],
  ])('refuses a %s, whose figures are of one', (kind, option, value, help) => {
    const root = book()
    const { status, stderr } = note(root, ...kind.split(' '), '--block', 'all', option, value)
    expect([status, stderr.includes(help)]).toEqual([2, true])
    expect(existsSync(join(root, 'seasons/2026/samples'))).toBe(false)
  })

  it('takes a block by its name or a part of it, and proposes the nearest where none fits', () => {
    const root = book()
    for (const typed of ['up', 'Upper', 'UPP'])
      expect(note(root, 'stage', '--block', typed, '--stage', '65').stdout).toContain('block: upper')
    expect(note(root, 'stage', '--block', 'uper', '--stage', '65').stderr).toContain('did you mean `upper`?')
    expect(note(root, 'stage', '--block', 'er', '--stage', '65').stderr).toContain('fits 2 blocks')
  })

  it('takes dates, times and stages as people say them', () => {
    const root = book()
    const said = ['stage', '--block', 'upper', '--stage', '50 % veraison', '--date', '23 june']
    expect(note(root, ...said).stdout).toMatch(/date: 2026-06-23[\s\S]*stage: 83\n {2}share: 50 %/)
    const own = note(root, ...said, '--share', '20 %', '--block', 'lower')
    expect(own.stdout).toMatch(/stage: 83\n {2}share: 20 %/)
  })
})

it('shows several days of weather with their readings', () => {
  const days = ['2026-06-22 8 21 4', '2026-06-23 9 24 ?', '2026-06-24 9 25 0'].flatMap((day) => [
    '--day',
    day,
  ])
  expect(note(book(), 'weather', ...days).stdout).toContain(
    'Another day: written: seasons/2026/weather/2026-06-23.yaml\n  date: 2026-06-23, low: 9 C, high: 24 C\n' +
      'Another day: written: seasons/2026/weather/2026-06-24.yaml\n  date: 2026-06-24, low: 9 C, high: 25 C, rain: 0 mm\n',
  )
})

it('takes the weekday of typing as today where a day of weather is read', () => {
  // 2026-06-24 is a Wednesday.
  expect(note(book(), 'weather', '--day', 'wed 8 21 4').stdout).toContain('weather/2026-06-24.yaml')
})

it('takes a scouting round in words as options, and says what the words lack', () => {
  const round = ['scouting', '--block', 'upper', '--looked-at', '50 bunches, 20 leaves']
  expect(note(book(), ...round, '--found', 'clean').stdout).toMatch(
    /looked_at: { bunches: 50, leaves: 20 }[\s\S]*powdery: { bunches: 0, leaves: 0 }[\s\S]*botrytis: { bunches: 0 }/,
  )
  const found = note(
    book(),
    ...round,
    '--found',
    'powdery 3 of 50, rest clean',
    '--found',
    'powdery.rows=2-3',
  )
  expect(flat(found.stdout)).toMatch(
    /powdery: { bunches: 3, rows: 2-3 }[\s\S]*downy: { bunches: 0, leaves: 0 }/,
  )
  const inRows = note(book(), ...round, '--found', 'powdery 3 of 50 in rows 2 to 3')
  expect(inRows.stdout).toContain('powdery: { bunches: 3, rows: 2-3 }')
  const looked = ['--looked-at', '50 bunches in rows 3 to 8', '--found', 'clean']
  expect(note(book(), 'scouting', '--block', 'upper', ...looked).stdout).toContain('rows: 3-8\n')
  expect(flat(note(book(), 'scouting', '--block', 'upper', '--found', 'clean').stderr)).toContain(
    'write --looked-at "50 bunches, 20 leaves"',
  )
  expect(note(book(), ...round, '--found', 'moths 3').stderr).toContain('is not a disease kept here')
})

it('keeps the zeros of a reading as they were typed, and gives numbers in JSON', () => {
  const root = book()
  const args = [
    'note',
    'sample',
    '--ledger',
    root,
    '--block',
    'upper',
    '--brix',
    '19.0, 20.50',
    '--ph',
    '3.10',
  ]
  const { json } = runJson([...args, '--as-of', '2026-09-01', '--yes'])
  expect(json.data.entry).toMatchObject({ brix: [19, 20.5], ph: [3.1] })
  expect(readFileSync(join(root, json.data.file), 'utf8')).toContain('brix: [19.0, 20.50]\nph: 3.10\n')
  expect(runJson(['ripeness', '--ledger', root, '--as-of', '2026-09-01']).json.data.samples[0].brix).toBe(
    19.75,
  )
})

describe('note KIND --help', () => {
  it('shows the fields and examples of that kind, and of no other', () => {
    const { stdout } = run(['note', 'pick', '--help'])
    expect(stdout).toMatch(/Fields of pick:[\s\S]*--weight[\s\S]*--rest/)
    expect(stdout).toMatch(/--hours <HOURS> +hours that they picked\n/)
    expect(stdout).not.toMatch(/--sprayer|--berries|rowbook note spray/)
    expect(run(['help', 'note', 'pick']).stdout).not.toMatch(/--sprayer/)
  })

  it('parts the fields of all kinds under headings', () => {
    const headings = run(['note', '--help']).stdout.match(/^Fields of .*:$/gm)
    expect(headings?.slice(0, 3)).toEqual([
      'Fields of several kinds:',
      'Fields of spray:',
      'Fields of scouting:',
    ])
  })
})
