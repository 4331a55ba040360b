// Holds the arrows of DEVELOPERS.md: which folder of src may import from which. Prints each breach and exits 1.
import { readdirSync, readFileSync } from 'node:fs'
import { dirname, join, posix, relative, sep } from 'node:path'
import { fileURLToPath } from 'node:url'

const SRC = fileURLToPath(new URL('../src', import.meta.url))
const MAY_IMPORT = {
  records: [],
  agronomy: [],
  ledger: ['records'],
  rules: ['agronomy', 'ledger', 'records'],
  reports: ['rules', 'agronomy', 'ledger', 'records'],
  render: ['reports', 'rules', 'agronomy', 'ledger', 'records'],
  commands: ['render', 'reports', 'rules', 'agronomy', 'ledger', 'records'],
}

/** Only the edges (commands, ledger) know files, clocks and processes; hashing is arithmetic. */
const OUTSIDE = /^node:(?!crypto$|path$)/
const PURE = new Set(['records', 'agronomy', 'rules', 'reports', 'render'])

const breaches = []
for (const file of readdirSync(SRC, { recursive: true, withFileTypes: true })) {
  if (!file.isFile() || !file.name.endsWith('.ts')) continue
  const path = relative(SRC, join(file.parentPath, file.name)).split(sep).join('/')
  const layer = path.split('/')[0]
  if (!(layer in MAY_IMPORT)) breaches.push(`${path}: ${layer} is no layer`)
  for (const [, target] of readFileSync(join(SRC, path), 'utf8').matchAll(/(?:from|import\()\s*'([^']+)'/g)) {
    if (PURE.has(layer) && OUTSIDE.test(target)) breaches.push(`${path}: ${layer} must not import ${target}`)
    if (!target.startsWith('.')) continue
    const reached = posix.normalize(posix.join(dirname(path), target)).split('/')[0]
    if (reached === layer || reached === '..' || MAY_IMPORT[layer]?.includes(reached)) continue
    breaches.push(`${path}: ${layer} must not import from ${reached} (${target})`)
  }
}
for (const breach of breaches) console.error(breach)
console.log(
  breaches.length === 0
    ? 'The arrows between the layers hold.'
    : `${breaches.length} arrows run the wrong way.`,
)
process.exitCode = breaches.length === 0 ? 0 : 1
