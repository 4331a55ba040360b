// Run by the build: runs usual commands, makes a text of the parts that each runs, and keeps what V8 compiles of
// the texts beside the program.
'use strict'
const { execFileSync } = require('node:child_process')
const { createHash } = require('node:crypto')
const fs = require('node:fs')
const { tmpdir } = require('node:os')
const { join } = require('node:path')
const { Parts } = require('./load.js')

const dist = join(__dirname, '../dist')
const ENTRY = join(dist, 'entry.txt')
const LEDGER = join(__dirname, '../examples/far-quillet')
const ON = ['--as-of', '2026-09-14', '--season', '2026']
const example = ['--ledger', LEDGER, ...ON]
const caches = fs.mkdtempSync(join(tmpdir(), 'rowbook-compile-'))
const MIX = [
  '--block',
  'top-terrace',
  '--product',
  'sulphur-80=3kg/ha',
  '--sprayer',
  'mounted',
  '--water',
  '300L/ha',
]
const NOTE = ['spray', '--like', 'last', '--date', '2026-09-14', '--dry-run', '--yes']
const REPORTS = [
  'check',
  'totals',
  'ready',
  'window',
  'pressure',
  'cover',
  'ripeness',
  'scouting',
  'heat',
  'today',
]

/** Command lines by the command that they begin with; `none` where it is an option. */
const LINES = new Map([
  ['none', [['--version'], ['--help']]],
  ['completion', [['completion', 'bash']]],
  ['mix', [['mix', ...MIX, ...example]]],
  ['note', [['note', ...NOTE, ...example]]],
  ['changes', [['changes', 'HEAD~1', 'HEAD', '--ledger', withHistory(), ...ON]]],
  ...REPORTS.map((name) => [name, [[name, ...example]]]),
])
LINES.get('check').push(['check', '--ledger', LEDGER])
LINES.get('ready').push(['ready', '--all', ...example])

/** A copy of the example with two states in git; without git, the command runs as far as it gets. */
function withHistory() {
  const root = join(caches, 'history')
  const sprays = join(root, 'seasons/2026/sprays')
  // Run from a hook of another repository, git's own variables would lead there; what the user configured is theirs.
  const variables = Object.entries(process.env).filter(([name]) => !name.startsWith('GIT_'))
  const env = {
    ...Object.fromEntries(variables),
    GIT_CONFIG_GLOBAL: '/dev/null',
    GIT_CONFIG_SYSTEM: '/dev/null',
  }
  const git = (...args) => execFileSync('git', args, { cwd: root, env, stdio: 'ignore' })
  const commit = () =>
    git('-c', 'user.name=build', '-c', 'user.email=build@localhost', 'commit', '-qam', 'state')
  fs.cpSync(LEDGER, root, { recursive: true })
  try {
    git('init', '-q')
    git('add', '.')
    commit()
    for (const name of fs.readdirSync(sprays)) {
      const text = fs.readFileSync(join(sprays, name), 'utf8')
      fs.writeFileSync(join(sprays, name), text.replace(/water: \d+/, 'water: 410'))
    }
    commit()
  } catch {
    // A build needs no git; the command then is compiled by whoever has it and runs it first.
  }
  return root
}

async function compile() {
  for (const [command, lines] of LINES) {
    // A new cache for each, so that each reads the ledger anew once and then with its records kept.
    process.env.XDG_CACHE_HOME = join(caches, command)
    addText(command, await ran(new Parts(dist, entryWith(''), command), lines))
    const parts = new Parts(dist, entryWith(command), command)
    parts.mark = `?${command}`
    process.env.XDG_CACHE_HOME = join(caches, `${command}-again`)
    await ran(parts, withJson(lines))
    forgetAnswers(join(process.env.XDG_CACHE_HOME, 'rowbook/ledgers'))
    await ran(parts, withJson(lines))
    keepOnly(parts, (name) => name.startsWith(`${command}-`))
  }
  // What gives an answer again is the same for all commands; here all of them were answered before.
  const parts = new Parts(dist, entryWith('check'), 'check')
  parts.mark = '?again'
  await ran(parts, LINES.get('none'))
  for (const command of ['completion', 'mix', 'check', 'ready', 'changes']) {
    process.env.XDG_CACHE_HOME = join(caches, `${command}-again`)
    await ran(parts, withJson(LINES.get(command)))
  }
  keepOnly(parts, (name) => /^(first|late)-/.test(name))
  process.exitCode = 0
}

const withJson = (lines) => lines.flatMap((line) => [line, [...line, '--json']])

/** Runs command lines in silence, and says which parts were run. */
async function ran(parts, lines) {
  const { writeSync } = fs
  const writes = [process.stdout, process.stderr].map((stream) => [stream, stream.write])
  for (const [stream] of writes) stream.write = () => true
  fs.writeSync = (_descriptor, bytes) => bytes.length
  for (const line of lines) await parts.main().main(line, 'compile')
  fs.writeSync = writeSync
  for (const [stream, write] of writes) stream.write = write
  return [...parts.loaded.keys()]
}

/** The entry as far as it names the texts of all commands, and that of one. */
function entryWith(command) {
  const lines = fs.readFileSync(ENTRY, 'latin1').trim().split('\n')
  return lines.filter((line, index) => index < 4 || line.startsWith(`${command} `)).join('\n')
}

/** Writes a text of the parts that a command ran, and its name into the entry. */
function addText(command, names) {
  const [, , , whole] = entryWith('').split('\n')
  const read = (name) => new Function(`return ${fs.readFileSync(join(dist, name), 'latin1')}`)()
  const parts = read(whole)
  const functions = names
    .filter((name) => name in parts)
    .map((name) => `${JSON.stringify(name)}:${parts[name]}`)
  const text = `({${functions.join(',\n')}})\n`
  const name = `${command}-${createHash('sha256').update(text).digest('hex').slice(0, 12)}.js`
  // Renamed, since commands may run meanwhile.
  fs.writeFileSync(join(dist, `${name}.${process.pid}`), text, 'latin1')
  fs.renameSync(join(dist, `${name}.${process.pid}`), join(dist, name))
  fs.appendFileSync(ENTRY, `${command} ${name}\n`)
}

function keepOnly(parts, isWanted) {
  for (const name of parts.compiledHere.keys()) if (!isWanted(name)) parts.compiledHere.delete(name)
  parts.keepCompiled(join(dist, 'code'))
}

function forgetAnswers(folder) {
  if (!fs.existsSync(folder)) return
  for (const name of fs.readdirSync(folder)) if (name.endsWith('-answer')) fs.rmSync(join(folder, name))
}

compile().finally(() => fs.rmSync(caches, { recursive: true, force: true }))
