import { mkdtempSync, readdirSync, readFileSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { bookIn } from '../reports/own-books.ts'
import { ledgerCopy, type Ran, run } from './run.ts'

export const EXAMPLE = 'examples/far-quillet'
export const ON = ['--as-of', '2026-09-14']

const FILL = ['--block', 'brook-rows', '--product', 'sulphur-80=3kg/ha', '--sprayer', 'mounted']

/** Every page that a command writes, by the words that make it; the file's name comes after them. */
const COMMANDS: Record<string, readonly string[]> = {
  today: ['today', '--html'],
  season: ['season', '--html'],
  ready: ['ready', '--html'],
  window: ['window', '--html'],
  ripeness: ['ripeness', '--html'],
  crop: ['crop', '--html'],
  harvest: ['harvest', '--people', '6', '--html'],
  helpers: ['harvest', '--people', '6', '--date', '2026-09-28', '--helpers'],
  scouting: ['scouting', '--html'],
  cover: ['cover', '--html'],
  pressure: ['pressure', '--html'],
  totals: ['totals', '--html'],
  heat: ['heat', '--html'],
  diary: ['diary', '--html'],
  compare: ['compare', '2025', '2026', '--html'],
  explain: ['explain', '--html'],
  'sheet scouting': ['sheet', 'scouting', '--html'],
  'sheet sampling': ['sheet', 'sampling', '--html'],
  'sheet crop': ['sheet', 'crop', '--html'],
  'sheet spray': ['sheet', 'spray', ...FILL, '--html'],
}

export const PAGES = Object.keys(COMMANDS)

const folder = mkdtempSync(join(tmpdir(), 'rowbook-pages-'))
const made = new Map<string, Ran & { file: string }>()

/** The file of a page, made by one run of the program however often it is asked for. */
export function pageFile(name: string, ledger = EXAMPLE): string {
  const key = `${ledger} ${name}`
  const before = made.get(key)
  if (before) return before.file
  const file = join(folder, `${made.size}-${name.replace(' ', '-')}.html`)
  const ran = run([...COMMANDS[name]!, file, '--ledger', ledger, ...ON])
  // 1 says that the report found something against picking.
  if (ran.status === null || ran.status > 1) throw new Error(`no page ${name}: ${ran.stderr}`)
  made.set(key, { ...ran, file })
  return file
}

/** The example in US units, with names far longer than any drawing or column has room for, one of them without a space. */
export function longNames(): string {
  const root = bookIn('us', 'far-quillet', { records: true })
  const names = [
    'The upper terrace behind the old lime kiln, beside the brook, planted again in 1998',
    'Oberhalbderaltenkalkbrennereiamwestlichenmuehlbachgelegenesteilstueck',
    'WWWWWWWW MMMMMMMM WWWWWWWW MMMMMMMM',
  ]
  for (const kind of ['blocks', 'products'])
    for (const [index, file] of readdirSync(join(root, kind))
      .filter((name) => name.endsWith('.yaml'))
      .entries()) {
      const path = join(root, kind, file)
      const text = readFileSync(path, 'utf8')
      writeFileSync(path, text.replace(/^name: .*$/m, `name: ${names[index % 3]} ${index}`))
    }
  return root
}

/** The example without any weather. */
export function withoutWeather(): string {
  const root = ledgerCopy()
  for (const season of readdirSync(join(root, 'seasons')))
    for (const file of readdirSync(join(root, 'seasons', season)).filter((name) => /weather/.test(name)))
      writeFileSync(join(root, 'seasons', season, file), '')
  return root
}
