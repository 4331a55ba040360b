// Times the built program beside bare Node and beside the raw YAML parser, prints the ratios, saves them as JSON,
// and exits 1 where a ratio is past its limit. `npm run bench -- ROUNDS SEASONS`; a benchmark, never part of the tests.
import { spawnSync } from 'node:child_process'
import {
  appendFileSync,
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

function note(table, what, { measured, limit, base }) {
  results.push({ table, what, measured, limit, base })
  const state = limit === null ? '' : measured <= limit ? 'ok' : 'PAST ITS LIMIT'
  console.log(
    `  ${what.padEnd(46)} ${measured.toFixed(2).padStart(7)}  ${limit === null ? '' : `of ${limit}`.padEnd(9)} ${state}`,
  )
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
  const times = interleaved(
    { bare: { args: ['-e', '0'] }, ...Object.fromEntries(cases.map(([name, args]) => [name, run(args)])) },
    rounds,
  )
  console.log(`\nTimes bare Node (${times.bare.median.toFixed(0)} ms), the example ledger, ${rounds} rounds`)
  for (const [name, , limit] of cases)
    note('start', name, { measured: times[name].median / times.bare.median, limit, base: times.bare.median })
}

function large() {
  const root = join(work, 'large')
  const records = writeLargeLedger(root, { seasons })
  const all = ['--ledger', root, '--as-of', '2026-11-01']
  const few = Math.min(rounds, 3)
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
    },
    few,
  )
  const ratio = (name, base, limit, what) =>
    note('large', what, {
      measured: times[name].median / times[base].median,
      limit,
      base: times[base].median,
    })
  console.log(
    `\n${records} records in ${seasons} seasons, ${few} rounds; parsing all takes ${times.parseAll.median.toFixed(0)} ms`,
  )
  ratio('report', 'parse', 1.3, 'report on one season, times its raw parse')
  ratio('first', 'parseAll', 1.15, 'check --all first, times the raw parse')
  ratio('again', 'first', 0.1, 'check --all again, times the first')
  ratio('changed', 'first', null, 'check --all, one file changed, times the first')
  memory(['check', '--all', ...all, '--json'])
}

function memory(args) {
  const peak = join(work, 'peak.cjs')
  writeFileSync(
    peak,
    "process.on('exit', () => process.stderr.write('PEAK ' + process.resourceUsage().maxRSS))\n",
  )
  rmSync(join(work, 'cold'), { recursive: true, force: true })
  const { stderr } = spawnSync(process.execPath, ['--require', peak, program, ...args], {
    encoding: 'utf8',
    maxBuffer: 1 << 28,
    env: { ...process.env, XDG_CACHE_HOME: join(work, 'cold') },
  })
  const kilobytes = Number(/PEAK (\d+)/.exec(stderr)?.[1])
  note('large', 'peak memory of check --all, MB', { measured: kilobytes / 1024, limit: 250, base: null })
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
  git('add', '.')
  git('commit', '-q', '-m', 'The book')
  correct(names.slice(100, 120), '1.5 kg/ha', '2 kg/ha')
  git('commit', '-q', '-a', '-m', 'Twenty corrected')
  correct(names, '300 L/ha', '320 L/ha')
  git('commit', '-q', '-a', '-m', 'All corrected')
  for (const [what, from, to] of [
    ['20 corrected', 'HEAD~2', 'HEAD~1'],
    ['every spray corrected', 'HEAD~1', 'HEAD'],
  ]) {
    const ask = run(['changes', from, to, '--ledger', root, '--as-of', '2026-11-01'], 'history')
    const answers = join(work, 'history/rowbook/ledgers')
    const forget = () => {
      for (const name of readdirSync(answers)) if (name.endsWith('-answer')) rmSync(join(answers, name))
    }
    const times = interleaved(
      {
        git: { program: 'git', args: ['-C', root, 'diff', from, to] },
        again: ask,
        first: { ...ask, prepare: forget },
      },
      rounds,
    )
    console.log(`\nchanges, ${what} of 400 entries; git diff takes ${times.git.median.toFixed(0)} ms`)
    for (const [name, limit] of [
      ['first', null],
      ['again', 3],
    ])
      note('history', `changes ${what}, ${name}, times git diff`, {
        measured: times[name].median / times.git.median,
        limit,
        base: times.git.median,
      })
  }
}

function growth() {
  const sizes = [seasons / 4, seasons / 2, seasons].map(Math.round)
  const cases = sizes.map((count) => {
    const root = join(work, `grown-${count}`)
    writeLargeLedger(root, { seasons: count, weather: false })
    const cold = `cold-${count}`
    return [
      String(count),
      {
        ...run(['check', '--all', '--ledger', root, '--as-of', '2026-11-01', '--json'], cold),
        prepare: () => rmSync(join(work, cold), { recursive: true, force: true }),
      },
    ]
  })
  const times = interleaved(
    { bare: { args: ['-e', '0'] }, ...Object.fromEntries(cases) },
    Math.min(rounds, 3),
  )
  const net = sizes.map((count) => times[count].median - times.bare.median)
  console.log('\nTime when the seasons double, without weather and without the start of Node')
  for (const index of [1, 2])
    note('growth', `${sizes[index - 1]} to ${sizes[index]} seasons`, {
      measured: net[index] / net[index - 1],
      limit: 2.3,
      base: net[index - 1],
    })
}

try {
  start()
  large()
  history()
  growth()
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
