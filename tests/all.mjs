// Runs every check, installing first what a fresh clone lacks. `npm test -- NAME` passes names on to vitest;
// `npm test -- --quick` runs only the tests that start no program, without simulations, for whoever edits.
import { spawnSync } from 'node:child_process'
import { existsSync } from 'node:fs'
import { fileURLToPath } from 'node:url'

const project = fileURLToPath(new URL('..', import.meta.url))

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
  const long = ['simulation'].flatMap((name) => ['--exclude', `tests/**/*${name}*`])
  step('Tests in this process', 'npx', ['vitest', 'run', '--project', 'in-process', ...long, ...names])
} else {
  step('Build', 'node', ['esbuild.config.mjs'])
  step('Types', 'npx', ['tsc'])
  step('Lint and format', 'npx', ['biome', 'check', '--error-on-warnings'])
  step('Layers', 'node', ['tests/layers.mjs'])
  step('Exports', 'node', ['tests/exports.mjs'])
  step('Tests', 'npx', ['vitest', 'run', ...names], { ROWBOOK_BUILT: '1' })
}
