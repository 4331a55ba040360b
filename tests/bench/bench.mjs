// Times the built program beside bare Node and beside the raw YAML parser, prints the ratios, saves them as JSON,
// and exits 1 where a ratio is past its limit. Limits hold the processor's time of all threads: on a machine that
// does other work too, the clock tells more of that work than of the program. Both are printed and saved. `npm run bench -- ROUNDS SEASONS RECORDS`; a benchmark, never part of the tests.
import { appendFileSync, cpSync, mkdirSync, mkdtempSync, readdirSync, rmSync, writeFileSync } from 'node:fs'
import { cpus, loadavg, release, tmpdir, totalmem } from 'node:os'
import { join } from 'node:path'
import { fileURLToPath } from 'node:url'
import { interleaved } from './interleaved.mjs'
import { writeLargeLedger } from './large-ledger.mjs'

const project = fileURLToPath(new URL('../..', import.meta.url))
const program = join(project, 'bin/rowbook.js')
const rounds = Number(process.argv[2] ?? 15)
/** Rounds of what takes long. */
const few = Math.min(rounds, 5)
const seasons = Number(process.argv[3] ?? 20)
const work = mkdtempSync(join(tmpdir(), 'rowbook-bench-'))
const results = []

/** Reports on the example after one spray was changed, and how many times bare Node each may take. */
const LIMITS = {
  totals: 2.5,
  pressure: 2.5,
  mix: 2.8,
  check: 3,
  window: 3.5,
  ready: 3.5,
  cover: 3.5,
  today: 3.5,
}
const MIX = '--block top-terrace --product sulphur-80=3kg/ha --sprayer mounted --water 300L/ha'.split(' ')
const WITHOUT_A_BOOK = [
  ['--version', ['--version']],
  ['--help', ['--help']],
  ['completion bash', ['completion', 'bash']],
]

const run = (args, cache = 'warm') => ({
  args: [program, ...args],
  env: { XDG_CACHE_HOME: join(work, cache), COLUMNS: '80' },
})

const ms = (time) => `${time.toFixed(0)} ms`

function tell(table, what, { measured, limit, ...rest }) {
  results.push({ table, what, measured, limit, ...rest })
  const state = limit === null ? '' : measured <= limit ? 'ok' : 'PAST ITS LIMIT'
  const clock = rest.clock === undefined ? '' : `clock ${rest.clock.toFixed(2)}`
  console.log(
    `  ${what.padEnd(50)} ${measured.toFixed(2).padStart(7)}  ${(limit === null ? '' : `of ${limit}`).padEnd(8)} ${clock.padEnd(12)} ${state}`.trimEnd(),
  )
}

/** How many times the base's time something took. */
function ratio(table, what, { of, base, limit }) {
  const clock = of.clock / base.clock
  const measured = base.processor === null ? clock : of.processor / base.processor
  tell(table, what, { measured, limit, clock, took: of, base })
}

function start() {
  const book = join(work, 'book')
  cpSync(join(project, 'examples/far-quillet'), book, { recursive: true })
  const on = ['--ledger', book, '--as-of', '2026-09-14', '--season', '2026']
  const sprays = join(book, 'seasons/2026/sprays')
  const spray = join(sprays, readdirSync(sprays).at(-1))
  const changeSpray = () => appendFileSync(spray, '# looked through\n')
  const bare = { args: ['-e', '0'] }
  const cases = Object.entries(LIMITS).map(([name, limit]) => [
    name,
    [name, ...(name === 'mix' ? MIX : []), ...on],
    limit,
  ])

  const named = (list) => Object.fromEntries(list.map(([name, args]) => [name, run(args)]))
  const short = interleaved({ bare, ...named(WITHOUT_A_BOOK) }, rounds)
  const { clock, processor } = short.bare
  console.log(
    `\nTimes bare Node (${ms(processor)} of the processor, ${ms(clock)} by the clock), ${rounds} rounds; the example`,
  )
  for (const [name] of WITHOUT_A_BOOK) ratio('start', name, { of: short[name], base: short.bare, limit: 1.2 })

  const changed = cases.map(([name, args]) => [name, { ...run(args), prepare: changeSpray }])
  const after = interleaved({ bare, ...Object.fromEntries(changed) }, rounds)
  for (const [name, , limit] of cases)
    ratio('changed', `${name}, after one spray was changed`, { of: after[name], base: after.bare, limit })

  const empty = cases.map(([name, args]) => {
    const cache = `empty-${name}`
    return [
      name,
      { ...run(args, cache), prepare: () => rmSync(join(work, cache), { recursive: true, force: true }) },
    ]
  })
  const first = interleaved({ bare, ...Object.fromEntries(empty) }, rounds)
  for (const [name, , limit] of cases)
    ratio('empty', `${name}, from an empty cache`, {
      of: first[name],
      base: first.bare,
      limit: Math.round(16 * limit) / 10,
    })
}

/** The first check of a large ledger, and one after an entry was changed, beside the raw YAML parser. */
function estate() {
  const root = join(work, 'large')
  const records = writeLargeLedger(root, { seasons })
  const check = run(['check', '--all', '--ledger', root, '--as-of', '2026-11-01', '--json'], 'estate')
  const sprays = join(root, 'seasons/2026/sprays')
  const spray = join(sprays, readdirSync(sprays)[0])
  const parse = {
    args: [
      '--input-type=module',
      '-e',
      `import { parseDocument } from ${JSON.stringify(join(project, 'node_modules/yaml/browser/index.js'))}
       import { readdirSync, readFileSync } from 'node:fs'
       for (const name of readdirSync(${JSON.stringify(root)}, { recursive: true }))
         if (name.endsWith('.yaml')) parseDocument(readFileSync(${JSON.stringify(root)} + '/' + name, 'utf8'))`,
    ],
  }
  const times = interleaved(
    {
      parse,
      first: { ...check, prepare: () => rmSync(join(work, 'estate'), { recursive: true, force: true }) },
      changed: { ...check, prepare: () => appendFileSync(spray, '# looked through\n') },
    },
    few,
  )
  const { clock, processor } = times.parse
  console.log(
    `\n${records} records in ${seasons} seasons, ${few} rounds; parsing all takes ${ms(processor)} of the processor, ${ms(clock)} by the clock`,
  )
  const base = times.parse
  ratio('estate', 'check first, times the raw parse', { of: times.first, base, limit: 1.15 })
  ratio('estate', 'check after one spray was changed, times the raw parse', {
    of: times.changed,
    base,
    limit: 0.6,
  })
  tell('estate', 'peak memory of the first check, MB', { measured: times.first.memory, limit: 250 })
}

/** Four books of `seasons` seasons, each with twice the blocks and entries of the one before, up to so many records. */
function growth(most) {
  const sizes = [8, 4, 2, 1].map((part) => most / part)
  const cases = sizes.map((size) => {
    const root = join(work, `grown-${size}`)
    const each = Math.round(size / seasons / 21)
    writeLargeLedger(root, {
      seasons,
      blocks: each,
      sprays: 10 * each,
      samples: 5 * each,
      walks: 6 * each,
      weather: false,
    })
    const cold = `cold-${size}`
    return [
      size,
      {
        ...run(['check', '--all', '--ledger', root, '--as-of', '2026-11-01', '--json'], cold),
        prepare: () => rmSync(join(work, cold), { recursive: true, force: true }),
      },
    ]
  })
  const bare = { args: ['-e', '0'] }
  const times = interleaved({ bare, ...Object.fromEntries(cases) }, few, false)
  const net = (size, key) => times[size][key] - times.bare[key]
  console.log(
    '\nTime of a first check when the records double, without weather and without the start of Node',
  )
  for (const [index, size] of sizes.entries()) {
    if (index === 0) continue
    const before = sizes[index - 1]
    tell('growth', `${before} to ${size} records`, {
      measured: net(size, 'processor') / net(before, 'processor'),
      limit: 2.3,
      clock: net(size, 'clock') / net(before, 'clock'),
      took: times[size],
      base: times[before],
    })
  }
}

try {
  start()
  estate()
  growth(Number(process.argv[4] ?? 160_000))
} finally {
  rmSync(work, { recursive: true, force: true })
}
const machine = {
  processor: cpus()[0]?.model,
  cores: cpus().length,
  memoryGB: Math.round(totalmem() / 2 ** 30),
  system: `${process.platform} ${release()}`,
  node: process.version,
  load: loadavg()[0],
}
mkdirSync(join(project, 'tests/bench/results'), { recursive: true })
writeFileSync(
  join(project, 'tests/bench/results/last.json'),
  `${JSON.stringify({ machine, rounds, results }, null, 2)}\n`,
)
const past = results.filter(({ measured, limit }) => limit !== null && !(measured <= limit))
console.log(
  `\n${past.length === 0 ? 'Every limit is kept.' : `${past.length} past their limits.`} Saved to tests/bench/results/last.json`,
)
process.exitCode = past.length === 0 ? 0 : 1
