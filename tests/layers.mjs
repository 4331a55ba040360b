// Checks the layers of src, as in DEVELOPERS.md: which folder may import from which, which file of a report's folder may
// import which, that no imports run in a circle, types included, and that files and commands are short. Prints each
// breach and exits 1.
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

/** Layout files of a report's folder: only these may import `render`, and the report's data may not import them. */
const LAID_OUT = /^(?:terminal|page|csv|ical)(?:-[\w-]+)?\.ts$/
/** The one file that collects every report's `figures.ts`, for `explain`. */
const COLLECTED = 'reports/explain/figures.ts'

/** Only the edges (commands, ledger) know files, clocks and processes; hashing is arithmetic. */
const OUTSIDE = /^node:(?!crypto$|path$)/
const PURE = new Set(['records', 'agronomy', 'facts', 'rules', 'reports', 'render'])

/** Lines of a file, and of what a command runs. */
const LONGEST_FILE = 250
const LONGEST_RUN = 40
/** Files that may be longer: tables, which are read by looking up. */
const TABLES = new Set([])

const files = readdirSync(SRC, { recursive: true, withFileTypes: true })
  .filter((file) => file.isFile() && file.name.endsWith('.ts'))
  .map((file) => relative(SRC, join(file.parentPath, file.name)).split(sep).join('/'))
const breaches = []
const imports = new Map()
for (const path of files) {
  const [layer, room] = path.split('/')
  if (!(layer in MAY_IMPORT)) breaches.push(`${path}: ${layer} is no layer`)
  const reached = []
  const text = readFileSync(join(SRC, path), 'utf8')
  breaches.push(...tooLong(path, text))
  for (const [, target] of text.matchAll(/(?:from|import\()\s*'([^']+)'/g)) {
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

/** What is too long in a file, or parted only to look short. */
function tooLong(path, text) {
  const lines = text.trimEnd().split('\n')
  const found = []
  if (lines.length > LONGEST_FILE && !TABLES.has(path)) found.push(`${path}: ${lines.length} lines`)
  if (/\.\.\.\{/.test(text)) found.push(`${path}: spreads an object only to save lines`)
  // A ledger has more entries than a call may have arguments.
  for (const [call] of text.matchAll(/(?:Math\.(?:max|min)|\.(?:push|unshift))\(\s*\.\.\./g))
    found.push(`${path}: ${call} passes data as arguments; see agronomy/statistics/extremes.ts`)
  const start = lines.findIndex((line) => /^\s+async run\(/.test(line))
  if (start === -1) return found
  const indent = lines[start].search(/\S/)
  const end = lines.findIndex(
    (line, at) => at > start && line.search(/\S/) === indent && line.trim().startsWith('}'),
  )
  if (end - start - 1 >= LONGEST_RUN) found.push(`${path}: what it runs has ${end - start - 1} lines`)
  return found
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
    ? 'The layers hold, and no file is too long.'
    : `${breaches.length} breaches of the layers.`,
)
process.exitCode = breaches.length === 0 ? 0 : 1
