// Installs and builds what a fresh clone lacks, then runs the main job on the invented examples.
import { spawnSync } from 'node:child_process'
import { existsSync } from 'node:fs'
import { fileURLToPath } from 'node:url'

const project = fileURLToPath(new URL('..', import.meta.url))

function run(command, args, options = {}) {
  return spawnSync(command, args, { cwd: project, stdio: 'inherit', ...options }).status
}

if (!existsSync(`${project}/node_modules/esbuild`) && run('npm', ['ci', '--loglevel=error']) !== 0)
  process.exit(1)
if (run('node', ['esbuild.config.mjs']) !== 0) process.exit(1)

/** Runs commands on an example, as on a day. */
function show(example, day, commands) {
  const book = ['--ledger', `examples/${example}`, '--as-of', day]
  for (const words of commands) {
    console.log(`$ rowbook ${words.map((word) => (/\s/.test(word) ? `"${word}"` : word)).join(' ')}\n`)
    const status = run('node', ['bin/rowbook.js', ...words, ...book])
    // 1 says that a check failed, as one block of Far Quillet does by design; anything above is a fault.
    if (status === null || status > 1) process.exit(status ?? 1)
    console.log()
  }
}

console.log('\nFar Quillet is an invented vineyard of four blocks; the day is 14 September 2026.\n')
show('far-quillet', '2026-09-14', [['check'], ['totals'], ['ready', '--all']])

console.log(
  'Tansy Corner is an invented hobby plot: 420 vines, a knapsack, no weather station. 12 July 2026:\n',
)
show('tansy-corner', '2026-07-12', [
  ['today'],
  [
    'mix',
    '--spot',
    '--block',
    'plum',
    '--vines',
    '12',
    '--water',
    '2L',
    '--dose',
    'bicarbonate=100 g in 10 L',
  ],
])
console.log('And the evening of 16 September:\n')
show('tansy-corner', '2026-09-16', [['ready', '--all']])
