// Runs every check, installing first what a fresh clone lacks. `npm test -- NAME` passes names on to vitest;
// `npm test -- --quick` runs only the tests that start no program, without simulations, for whoever edits.
import { spawn, spawnSync } from 'node:child_process'
import { existsSync } from 'node:fs'
import { fileURLToPath } from 'node:url'

const project = fileURLToPath(new URL('..', import.meta.url))

/** Tests that run what is built, or start other programs; all others run in the process of the tests. */
const STARTS_PROGRAMS = ['tests/commands/**', 'tests/faults/**', 'tests/ledger/cache/**']

/** Runs checks side by side, with a core each; prints what each says once it has ended. */
async function sideBySide(checks) {
  const run = ([title, command, ...args]) =>
    new Promise((resolve) => {
      const child = spawn(command, args, { cwd: project })
      let said = ''
      for (const stream of [child.stdout, child.stderr]) stream.on('data', (piece) => (said += piece))
      child.on('close', (status) => {
        console.log(`\n== ${title}\n${said.trimEnd()}${status === 0 ? '' : `\n\n${title}: failed`}`)
        resolve(status)
      })
    })
  if ((await Promise.all(checks.map(run))).some((status) => status !== 0)) process.exit(1)
}

function step(title, command, args, env = {}) {
  console.log(`\n== ${title}`)
  const { status } = spawnSync(command, args, {
    cwd: project,
    stdio: 'inherit',
    env: { ...process.env, ...env },
  })
  if (status !== 0) {
    console.error(`\n${title}: failed`)
    process.exit(status ?? 1)
  }
}

if (!existsSync(`${project}/node_modules/vitest`)) step('Install', 'npm', ['ci'])
const names = process.argv.slice(2).filter((word) => word !== '--quick')
if (process.argv.includes('--quick')) {
  const left = [...STARTS_PROGRAMS, 'tests/**/*simulation*'].flatMap((files) => ['--exclude', files])
  step('Tests in this process', 'npx', ['vitest', 'run', ...left, ...names], { ROWBOOK_BUILT: '1' })
} else {
  step('Build', 'node', ['esbuild.config.mjs'])
  await sideBySide([
    ['Types', 'npx', 'tsc'],
    ['Exports', 'node', 'tests/exports.mjs'],
    ['Lint and format', 'npx', 'biome', 'check', '--error-on-warnings'],
    ['Layers', 'node', 'tests/layers.mjs'],
  ])
  step('Tests', 'npx', ['vitest', 'run', ...names], { ROWBOOK_BUILT: '1' })
}
