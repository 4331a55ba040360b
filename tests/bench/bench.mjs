// Times the built program beside bare Node and beside the raw YAML parser, prints the ratios, saves them as JSON,
// and exits 1 where a ratio is past its limit. Limits hold the processor's time of all threads: on a machine that
// does other work too, the clock tells more of that work than of the program. Both are printed and saved. `npm run bench -- ROUNDS SEASONS RECORDS`; a benchmark, never part of the tests.
import { spawnSync } from 'node:child_process'
import {
  appendFileSync,
  cpSync,
  mkdirSync,
  mkdtempSync,
  readdirSync,
  readFileSync,
  rmSync,
  writeFileSync,
} from 'node:fs'
import { cpus, loadavg, release, tmpdir, totalmem } from 'node:os'
import { join } from 'node:path'
import { fileURLToPath } from 'node:url'
import { interleaved } from './interleaved.mjs'
import { writeLargeLedger } from './large-ledger.mjs'

const project = fileURLToPath(new URL('../..', import.meta.url))
const program = join(project, 'bin/rowbook.js')
const rounds = Number(process.argv[2] ?? 15)
const seasons = Number(process.argv[3] ?? 20)
const work = mkdtempSync(join(tmpdir(), 'rowbook-bench-'))
const results = []

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

/** Lets the answers of earlier runs be forgotten, but not the records. */
function forgetAnswers(cache) {
  const answers = join(work, cache, 'rowbook/ledgers')
  for (const name of readdirSync(answers)) if (name.endsWith('-answer')) rmSync(join(answers, name))
}

function start() {
  const example = [
    '--ledger',
    join(project, 'examples/far-quillet'),
    '--as-of',
    '2026-09-14',
    '--season',
    '2026',
  ]
  const mix = [
    'mix',
    '--block',
    'top-terrace',
    '--product',
    'sulphur-80=3kg/ha',
    '--sprayer',
    'mounted',
    '--water',
    '300L/ha',
  ]
  const cases = [
    ['--version', ['--version'], 1.15],
    ['--help', ['--help'], 1.15],
    ['completion bash', ['completion', 'bash'], 1.15],
    ...['check', 'totals'].map((name) => [`${name} --json`, [name, ...example, '--json'], 1.35]),
    ['mix --json', [...mix, ...example, '--json'], 1.35],
    ...['check', 'totals'].map((name) => [name, [name, ...example], 1.6]),
    ['mix', [...mix, ...example], 1.6],
    ...['ready', 'window', 'pressure'].map((name) => [name, [name, ...example], 1.8]),
  ]
  const bare = { args: ['-e', '0'] }
  const named = (list) => Object.fromEntries(list.map(([name, args]) => [name, run(args)]))
  const times = interleaved({ bare, ...named(cases) }, rounds)
  const { clock, processor } = times.bare
  console.log(
    `\nTimes bare Node (${ms(processor)} of the processor, ${ms(clock)} by the clock), the example ledger, ${rounds} rounds`,
  )
  for (const [name, , limit] of cases) ratio('start', name, { of: times[name], base: times.bare, limit })
  // A book of its own, in which one spray is changed before each run.
  const book = join(work, 'book')
  cpSync(join(project, 'examples/far-quillet'), book, { recursive: true })
  const sprays = join(book, 'seasons/2026/sprays')
  const spray = join(sprays, readdirSync(sprays).at(-1))
  const inBook = (args) => args.map((arg) => (arg === example[1] ? book : arg))
  const changed = cases
    .slice(3)
    .filter(([name]) => !name.endsWith('--json'))
    .map(([name, args]) => [
      name,
      { ...run(inBook(args), 'changed'), prepare: () => appendFileSync(spray, '# looked through\n') },
    ])
  const anew = interleaved({ bare, ...Object.fromEntries(changed) }, Math.min(rounds, 5))
  console.log('\nThe same after one spray was changed; no limit is set for it')
  for (const [name] of changed)
    ratio('start', `${name}, after a change`, { of: anew[name], base: anew.bare, limit: null })
}

function large() {
  const root = join(work, 'large')
  const records = writeLargeLedger(root, { seasons })
  const all = ['--ledger', root, '--as-of', '2026-11-01']
  const few = Math.min(rounds, 7)
  const fresh = () => rmSync(join(work, 'cold'), { recursive: true, force: true })
  const parse = (folder) => ({
    args: [
      '--input-type=module',
      '-e',
      `import { parseDocument } from ${JSON.stringify(join(project, 'node_modules/yaml/browser/index.js'))}
       import { readFileSync } from 'node:fs'
       for (const file of ${JSON.stringify(folder)}) parseDocument(readFileSync(file, 'utf8'))`,
    ],
  })
  const files = (folder) =>
    readdirSync(folder, { recursive: true, encoding: 'utf8' })
      .filter((name) => name.endsWith('.yaml'))
      .map((name) => join(folder, name))
  // The list of all files is too long for a command line: the parser reads the folder itself.
  const parseAll = {
    args: [
      '--input-type=module',
      '-e',
      `import { parseDocument } from ${JSON.stringify(join(project, 'node_modules/yaml/browser/index.js'))}
       import { readdirSync, readFileSync } from 'node:fs'
       for (const name of readdirSync(${JSON.stringify(root)}, { recursive: true }))
         if (name.endsWith('.yaml')) parseDocument(readFileSync(${JSON.stringify(root)} + '/' + name, 'utf8'))`,
    ],
  }
  const one = files(join(root, 'seasons/2026'))
  const touched = join(root, 'seasons/2026/samples.yaml')
  const spray = files(join(root, 'seasons/2026/sprays'))[0]
  const times = interleaved(
    {
      parse: parse(one),
      report: { ...run(['totals', ...all, '--season', '2026', '--json'], 'cold'), prepare: fresh },
      parseAll,
      first: { ...run(['check', '--all', ...all, '--json'], 'cold'), prepare: fresh },
      again: run(['check', '--all', ...all, '--json'], 'cold'),
      changed: {
        ...run(['check', '--all', ...all, '--json'], 'cold'),
        prepare: () => appendFileSync(touched, '# looked through\n'),
      },
      sprayed: {
        ...run(['check', '--all', ...all, '--json'], 'cold'),
        prepare: () => appendFileSync(spray, '# looked through\n'),
      },
    },
    few,
  )
  const row = (name, base, limit, what) => ratio('large', what, { of: times[name], base: times[base], limit })
  const { clock, processor } = times.parseAll
  console.log(
    `\n${records} records in ${seasons} seasons, ${few} rounds; parsing all takes ${ms(processor)} of the processor, ${ms(clock)} by the clock`,
  )
  row('report', 'parse', 1.3, 'report on one season, times its raw parse')
  row('first', 'parseAll', 1.15, 'check --all first, times the raw parse')
  row('again', 'first', 0.1, 'check --all again, times the first')
  row('changed', 'first', null, 'check --all, a file of samples changed, times the first')
  row('sprayed', 'first', null, 'check --all, a spray changed, times the first')
  tell('large', 'peak memory of check --all, MB', { measured: times.first.memory, limit: 250 })
}

/** What changed in a season of 400 entries between two revisions, beside what git takes to tell the lines. */
function history() {
  const root = join(work, 'history')
  writeLargeLedger(root, { seasons: 1, sprays: 240, samples: 80, walks: 80, weather: false })
  const git = (...args) => {
    const { status, stderr } = spawnSync(
      'git',
      ['-c', 'user.name=bench', '-c', 'user.email=bench@example.org', ...args],
      { cwd: root, encoding: 'utf8' },
    )
    if (status !== 0) throw new Error(`git ${args[0]}: ${stderr}`)
  }
  const sprays = join(root, 'seasons/2026/sprays')
  const names = readdirSync(sprays)
  const correct = (some, from, to) => {
    for (const name of some) {
      const file = join(sprays, name)
      writeFileSync(file, readFileSync(file, 'utf8').replace(from, to))
    }
  }
  git('init', '-q', '-b', 'main')
  git('add', '--', '.', ':!seasons')
  git('commit', '-q', '-m', 'Before the season')
  git('add', '.')
  git('commit', '-q', '-m', 'The book')
  correct(names.slice(100, 120), '1.5 kg/ha', '2 kg/ha')
  git('commit', '-q', '-a', '-m', 'Twenty corrected')
  correct(names, '300 L/ha', '320 L/ha')
  git('commit', '-q', '-a', '-m', 'All corrected')
  for (const [what, from, to] of [
    ['all 400 added', 'HEAD~3', 'HEAD~2'],
    ['20 corrected', 'HEAD~2', 'HEAD~1'],
    ['every spray corrected', 'HEAD~1', 'HEAD'],
  ]) {
    const ask = run(['changes', from, to, '--ledger', root, '--as-of', '2026-11-01'], 'history')
    const times = interleaved(
      {
        bare: { args: ['-e', '0'] },
        git: { program: 'git', args: ['-C', root, 'diff', from, to] },
        again: ask,
        first: { ...ask, prepare: () => forgetAnswers('history') },
      },
      rounds,
    )
    const { git: base, bare, first } = times
    console.log(`\nchanges in a season of 400 entries, ${what}; git diff takes ${ms(base.clock)}`)
    for (const [name, limit] of [
      ['first', null],
      ['again', 3],
    ])
      ratio('history', `changes ${what}, ${name}, times git diff`, { of: times[name], base, limit })
    // Node alone takes longer to start than git to compare: how much of the ratio is the program's own.
    ratio('history', `${what}: bare Node, times git diff`, { of: bare, base, limit: null })
    const net = (first.clock - bare.clock) / base.clock
    const said = `${what}: first, net of bare Node, times git diff`
    tell('history', said, { measured: net, limit: null, clock: net, took: first, base })
  }
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
  const times = interleaved({ bare, ...Object.fromEntries(cases) }, Math.min(rounds, 5), false)
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
  large()
  history()
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
