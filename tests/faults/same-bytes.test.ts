import { mkdtempSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { describe, expect, test } from 'vitest'
import { run, SURROUNDINGS, standing } from '../commands/run.ts'
import { COMMANDS } from '../commands/whole-table.ts'
import { smallBook } from './book.ts'
import { NEEDED, WRITERS } from './in-process.ts'
import { PROJECT } from './processes.ts'
import { SOAK } from './size.ts'

const EXAMPLE = join(PROJECT, 'examples/far-quillet')
const WORLDS: readonly Record<string, string>[] = [
  { TZ: 'UTC', LANG: 'C' },
  { TZ: 'Pacific/Kiritimati', LANG: 'de_DE.UTF-8', LC_ALL: 'de_DE.UTF-8' },
  { TZ: 'America/St_Johns', LANG: 'tr_TR.UTF-8', LC_ALL: 'tr_TR.UTF-8' },
  { TZ: 'Europe/Berlin', LANG: 'en_US.UTF-8', LANGUAGE: 'ar' },
]
// The two that differ most, in the short form.
const SOME = SOAK ? [0, 1, 2, 3] : [1, 2]
const LEDGERLESS = new Set(['completion', 'explain', 'schema', 'calibrate', 'sugar'])
const AS_OF_ONLY = new Set(['calibrate', 'sugar', 'explain', 'schema'])
const REPORTS = COMMANDS.filter(({ name }) => !WRITERS.has(name)).map(({ name }) => name)

const programs = WORLDS.map((world) => standing(world))
const runIn = (at: number, args: readonly string[], env: Readonly<Record<string, string>> = {}) =>
  programs[at]!.run({ args, cwd: PROJECT, env: { ...SURROUNDINGS, ...WORLDS[at], ...env } })

const answers = (args: readonly string[], env: Readonly<Record<string, string>> = {}) =>
  new Set(
    SOME.map((at) => {
      const { status, stdout, stderr } = runIn(at, args, env)
      return JSON.stringify([status, stdout, stderr])
    }),
  )

describe('R16, R17: the same bytes in every time zone and locale', () => {
  test.each(REPORTS.map((name, index) => ({ name, index })))('$name', ({ name, index }) => {
    const where = LEDGERLESS.has(name)
      ? AS_OF_ONLY.has(name)
        ? ['--as-of', '2026-09-14']
        : []
      : ['--ledger', EXAMPLE, '--as-of', '2026-09-14']
    const args = [name, ...(NEEDED[name] ?? []), ...where]
    // In the short form, text and JSON take turns.
    for (const form of SOAK ? [[], ['--json']] : [index % 2 ? [] : ['--json']]) {
      const printed = answers([...args, ...form])
      expect(printed.size).toBe(1)
      expect([...printed][0]).not.toContain('inside the program')
    }
  })

  test('at a fixed width that the terminal asks for', () => {
    const args = ['totals', '--ledger', EXAMPLE, '--as-of', '2026-09-14']
    for (const COLUMNS of ['60', '120']) expect(answers(args, { COLUMNS }).size).toBe(1)
  })

  test('also for a ledger with a broken record, as of the day asked for', () => {
    const root = smallBook({ 'blocks/upper.yaml': 'name: Upper\n' })
    const printed = answers(['totals', '--ledger', root, '--as-of', '2026-09-14', '--json'])
    expect(printed.size).toBe(1)
    const [status, stdout] = JSON.parse([...printed][0]!)
    expect([status, JSON.parse(stdout).asOf, JSON.parse(stdout).data]).toEqual([1, '2026-09-14', null])
  })

  test('`today` is the day at the vineyard, wherever the machine is', () => {
    for (const zone of ['Pacific/Kiritimati', 'America/St_Johns', 'Asia/Kathmandu']) {
      const root = smallBook({ 'vineyard.yaml': `name: x\nlatitude: 51\ntimezone: ${zone}\n` })
      const there = () => new Intl.DateTimeFormat('en-CA', { timeZone: zone }).format(new Date())
      const before = there()
      const days = WORLDS.map(
        (_, at) => JSON.parse(runIn(at, ['check', '--ledger', root, '--json']).stdout).asOf,
      )
      // Only over midnight can the days differ.
      if (before === there()) expect(days).toEqual(days.map(() => before))
    }
  })
})

describe('R16: days on which clocks and seasons change', () => {
  const spray = (date: string, time: string) =>
    `date: ${date}\ntime: ${time}\nblocks: [upper]\nsprayer: mounted\nwater: 300 L/ha\nproducts:\n  - { product: sulphur, rate: 3 kg/ha, for: powdery }\n`
  const sites: Record<string, string> = {
    north: 'name: N\nlatitude: 51\nlongitude: 7\ntimezone: Europe/Berlin\n',
    south: 'name: S\nlatitude: -41\nlongitude: 174\ntimezone: Pacific/Auckland\n',
    half: 'name: H\nlatitude: 47\nlongitude: -53\ntimezone: America/St_Johns\n',
    quarter: 'name: C\nlatitude: -44\nlongitude: -176\ntimezone: Pacific/Chatham\n',
  }
  const days: readonly (readonly [string, string, string, number])[] = [
    ['north', '2026-03-29', '01:30-04:10', 2026],
    ['north', '2026-10-25', '01:30-03:10', 2026],
    ['north', '2024-02-29', '10:00-11:00', 2024],
    ['north', '2025-11-01', '10:00-11:00', 2026],
    ['north', '2026-10-31', '23:00-00:30 +1', 2026],
    ['north', '2025-12-31', '23:30-00:30 +1', 2026],
    ['north', '2026-01-01', '00:10-01:00', 2026],
    ['south', '2026-04-05', '01:30-03:30', 2026],
    ['south', '2025-09-28', '01:30-04:00', 2026],
    ['south', '2025-12-31', '23:30-00:30 +1', 2026],
    ['half', '2026-03-08', '01:30-04:00', 2026],
    ['quarter', '2026-04-05', '02:30-04:00', 2026],
  ]

  test.each(days)('%s, %s %s', (site, date, time, season) => {
    const root = smallBook({
      ...Object.fromEntries(
        ['sprays/2026-06-14-upper', 'scouting', 'samples', 'stages', 'crop', 'picks', 'work'].map((name) => [
          `seasons/2026/${name}.yaml`,
          null,
        ]),
      ),
      'seasons/2026/weather.csv': null,
      'vineyard.yaml': sites[site]!,
      [`seasons/${season}/sprays/${date}-upper.yaml`]: spray(date, time),
    })
    const asOf = new Date(Date.parse(date) + 86_400_000).toISOString().slice(0, 10)
    for (const args of SOAK
      ? [['check'], ['diary', '--form', 'full'], ['ready', '--all', '--json']]
      : [['ready', '--all', '--json']]) {
      const printed = answers([...args, '--ledger', root, '--as-of', asOf, '--season', String(season)])
      expect([args[0], printed.size]).toEqual([args[0], 1])
      expect([...printed][0]).not.toContain('inside the program')
      expect([...printed][0]).not.toContain('wrong-season')
    }
  })
})

test('the home folder makes no difference', () => {
  const args = ['check', '--ledger', EXAMPLE, '--as-of', '2026-09-14']
  const homes = ['/dev/null/nowhere', mkdtempSync(join(tmpdir(), 'rowbook-home-'))]
  expect(
    new Set(homes.map((HOME) => JSON.stringify(run(args, { env: { HOME, XDG_CACHE_HOME: HOME } })))).size,
  ).toBe(1)
})
