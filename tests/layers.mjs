// Holds the arrows of DEVELOPERS.md: which folder of src may import from which, which file of a report's room may
// import which, and that no imports run in a circle, types included. Prints each breach and exits 1.
import { readdirSync, readFileSync } from 'node:fs'
import { dirname, join, posix, relative, sep } from 'node:path'
import { fileURLToPath } from 'node:url'

const SRC = fileURLToPath(new URL('../src', import.meta.url))
const BELOW_REPORTS = ['rules', 'facts', 'agronomy', 'ledger', 'records']
const MAY_IMPORT = {
  records: [],
  agronomy: [],
  ledger: ['records'],
  facts: ['agronomy', 'ledger', 'records'],
  rules: ['facts', 'agronomy', 'ledger', 'records'],
  render: ['facts', 'agronomy', 'ledger', 'records'],
  reports: BELOW_REPORTS,
  commands: ['render', 'reports', ...BELOW_REPORTS],
}

/** Files of a report's room that lay it out: only these may import `render`, and the room's data may not import them. */
const LAID_OUT = /^(?:terminal|page|csv|ical)(?:-[\w-]+)?\.ts$/
/** What `explain` says is collected from every room's `figures.ts` in one place. */
const COLLECTED = 'reports/explain/figures.ts'

/** Only the edges (commands, ledger) know files, clocks and processes; hashing is arithmetic. */
const OUTSIDE = /^node:(?!crypto$|path$)/
const PURE = new Set(['records', 'agronomy', 'facts', 'rules', 'reports', 'render'])

const files = readdirSync(SRC, { recursive: true, withFileTypes: true })
  .filter((file) => file.isFile() && file.name.endsWith('.ts'))
  .map((file) => relative(SRC, join(file.parentPath, file.name)).split(sep).join('/'))
const breaches = []
const imports = new Map()
for (const path of files) {
  const [layer, room] = path.split('/')
  if (!(layer in MAY_IMPORT)) breaches.push(`${path}: ${layer} is no layer`)
  const reached = []
  for (const [, target] of readFileSync(join(SRC, path), 'utf8').matchAll(/(?:from|import\()\s*'([^']+)'/g)) {
    if (PURE.has(layer) && OUTSIDE.test(target)) breaches.push(`${path}: ${layer} must not import ${target}`)
    if (!target.startsWith('.')) continue
    const other = posix.normalize(posix.join(dirname(path), target))
    reached.push(other)
    if (!isAllowed(path, layer, room, other)) breaches.push(`${path}: must not import ${other}`)
  }
  imports.set(path, reached)
}
breaches.push(...circles(imports))

function isAllowed(path, layer, room, other) {
  const [otherLayer, otherRoom] = other.split('/')
  if (otherLayer === '..') return true
  if (layer !== 'reports') return otherLayer === layer || MAY_IMPORT[layer]?.includes(otherLayer)
  const laysOut = LAID_OUT.test(posix.basename(path))
  if (otherLayer === 'render') return laysOut
  if (otherLayer !== 'reports') return MAY_IMPORT.reports.includes(otherLayer)
  if (otherRoom !== room) return path === COLLECTED && posix.basename(other) === 'figures.ts'
  return laysOut || !LAID_OUT.test(posix.basename(other))
}

/** Each circle of imports once, told by its files. */
function circles(graph) {
  const state = new Map()
  const found = []
  const visit = (file, trail) => {
    if (state.get(file) === 'done') return
    if (state.get(file) === 'open') {
      found.push(`in a circle: ${[...trail.slice(trail.indexOf(file)), file].join(' -> ')}`)
      return
    }
    state.set(file, 'open')
    for (const next of graph.get(file) ?? []) visit(next, [...trail, file])
    state.set(file, 'done')
  }
  for (const file of graph.keys()) visit(file, [])
  return found
}

for (const breach of breaches) console.error(breach)
console.log(
  breaches.length === 0
    ? 'The arrows between the layers hold.'
    : `${breaches.length} arrows run the wrong way.`,
)
process.exitCode = breaches.length === 0 ? 0 : 1
