// The long form of tests/faults, and of the pages in a browser: `npm run soak`, or `npm run soak -- NAME` for the files whose names hold it.
import { spawnSync } from 'node:child_process'
import { fileURLToPath } from 'node:url'

const project = fileURLToPath(new URL('..', import.meta.url))
const names = process.argv.slice(2)
const args = [
  'vitest',
  'run',
  '--testTimeout',
  '3600000',
  ...(names.length > 0 ? names : ['tests/faults', 'tests/commands/pages-browser']),
]
const { status } = spawnSync('npx', args, {
  cwd: project,
  stdio: 'inherit',
  env: { ...process.env, ROWBOOK_SOAK: '1' },
})
process.exit(status ?? 1)
