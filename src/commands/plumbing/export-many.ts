import { readdirSync, realpathSync } from 'node:fs'
import { basename, dirname, join, relative, resolve } from 'node:path'
import { cannotRead, isAbsent } from '../../ledger/read/cannot-read.ts'
import { type Disk, realDisk } from '../../ledger/read/disk.ts'
import { isLedger } from '../../ledger/read/find.ts'
import type { Ledger } from '../../ledger/read/ledger.ts'
import { openLedger } from '../../ledger/read/open.ts'
import { allOrNone } from '../../ledger/write/new-files.ts'
import { placeOutside } from '../../ledger/write/own-file.ts'
import { UserError } from '../../records/user-error.ts'
import type { Format } from '../../reports/export/csv.ts'
import { headLine, rowLine } from '../../reports/export/csv.ts'
import type { Table, Value } from '../../reports/export/table.ts'
import { UsageError } from './errors.ts'

export interface LedgerFolder {
  /** Its name in the column `ledger` of its rows. */
  name: string
  root: string
}

/** The ledgers directly in a folder, by name. @throws UsageError where there is none, CannotRead where it can't be read. */
export function ledgersIn(cwd: string, folder: string): LedgerFolder[] {
  const path = resolve(cwd, folder)
  let names: string[]
  try {
    names = readdirSync(path)
  } catch (error) {
    if (!isAbsent(error)) throw cannotRead(folder, error)
    throw new UsageError(`there is no folder ${folder}`, 'check the path after --ledgers')
  }
  names = names.filter((name) => isLedger(join(path, name)))
  if (names.length === 0)
    throw new UsageError(
      `no folder in ${folder} holds a vineyard.yaml`,
      'name the folder that the ledgers stand in',
    )
  return names.sort().map((name) => ({ name, root: join(path, name) }))
}

/** Ledgers named one by one: by their folder's name, or by their path where two have the same. */
export function ledgersNamed(cwd: string, folders: readonly string[]): LedgerFolder[] {
  const ledgers = folders.map((folder) => ({
    name: basename(resolve(cwd, folder)),
    root: resolve(cwd, folder),
  }))
  for (const { root } of ledgers)
    if (!isLedger(root))
      throw new UsageError(
        `${relative(cwd, root) || root} has no vineyard.yaml`,
        'check the path after --ledger',
      )
  const unique = ledgers.filter(
    (ledger, index) =>
      ledgers.findIndex((other) => realpathSync(other.root) === realpathSync(ledger.root)) === index,
  )
  const twice = (name: string) => unique.filter((ledger) => ledger.name === name).length > 1
  return unique.map((ledger) =>
    twice(ledger.name) ? { ...ledger, name: relative(cwd, ledger.root) } : ledger,
  )
}

export type Sink = (table: Table, text: string) => void

/**
 * Writes one file for each table into a folder, and `tables.json` with the types of their columns: all files or none.
 * No existing file is overwritten.
 * @param fill writes the tables. @throws WriteFailed where a name is taken or the disk refuses.
 */
export function filesIn<T>(
  { cwd, folder, tables, format }: { cwd: string; folder: string; tables: readonly Table[]; format: Format },
  fill: (sink: Sink) => T,
  disk: Disk = realDisk,
): T {
  const root = resolve(cwd, folder)
  return allOrNone((files) => {
    files.makeRoot(root, folder)
    const begin = (file: string) =>
      files.begin({ root: dirname(placeOutside(root, file)), file, shown: join(folder, file) })
    begin('tables.json')(`${JSON.stringify(typesOf(tables), null, 2)}\n`)
    const adders = new Map(tables.map((table) => [table, begin(`${table.name}.${format}`)]))
    return fill((table, text) => adders.get(table)!(text))
  }, disk)
}

const typesOf = (tables: readonly Table[]) =>
  Object.fromEntries(
    tables.map(({ name, columns }) => [
      name,
      { ledger: 'text', ...Object.fromEntries(columns.map((column) => [column.name, column.type])) },
    ]),
  )

/** Which rows to export: of one season, of some blocks, up to a day; all where left out. */
export interface Wanted {
  season?: number | undefined
  asOf?: string | undefined
  blocks?: ReadonlySet<string> | undefined
}

/** The column that each filter looks at; tables of blocks, products and the like have none for seasons and days. */
const COLUMN_OF = { season: 'season', asOf: 'date', blocks: 'block' } as const

/** Whether to export a row; a table without the column of a filter gives all its rows. */
function isWanted(
  { columns }: Table,
  { season, asOf, blocks }: Wanted,
): (values: readonly Value[]) => boolean {
  const at = (name: string) => columns.findIndex((column) => column.name === name)
  const [ofSeason, date, block, several] = [at('season'), at('date'), at('block'), at('blocks')]
  return (values) =>
    (season === undefined || ofSeason < 0 || values[ofSeason] === season) &&
    (asOf === undefined || date < 0 || String(values[date]) <= asOf) &&
    (blocks === undefined || block < 0 || blocks.has(String(values[block]))) &&
    (blocks === undefined || several < 0 || (values[several] as string[]).some((id) => blocks.has(id)))
}

/** The option that a table can't be filtered by, or null. */
export function unmet({ columns }: Table, wanted: Wanted): string | null {
  const has = (name: string) => columns.some((column) => column.name === name || column.name === `${name}s`)
  const lacking = (['season', 'asOf', 'blocks'] as const).find(
    (wish) => wanted[wish] !== undefined && !has(COLUMN_OF[wish]),
  )
  return lacking === undefined ? null : { season: '--season', asOf: '--as-of', blocks: '--block' }[lacking]
}

interface Writing {
  tables: readonly Table[]
  sink: Sink
  format: Format
  wanted: Wanted
}

/**
 * Writes the tables ledger by ledger, so that only one is in memory at a time. A broken ledger is left out entirely.
 * @returns the names of those left out, each with the reason.
 */
export function writeTables(
  ledgers: readonly LedgerFolder[],
  { tables, sink, format, wanted }: Writing,
): { name: string; why: string }[] {
  const plans = tables.map((table) => ({
    table,
    columns: ['ledger', ...table.columns.map(({ name }) => name)],
    isWanted: isWanted(table, wanted),
  }))
  for (const { table, columns } of plans) sink(table, headLine(columns, format))
  const leftOut: { name: string; why: string }[] = []
  for (const { name, root } of ledgers) {
    const opened = openSound(root, wanted)
    if ('why' in opened) {
      leftOut.push({ name, why: opened.why })
      continue
    }
    for (const { table, columns, isWanted } of plans) {
      let text = ''
      for (const values of table.rows(opened.ledger)) {
        if (!isWanted(values)) continue
        text += rowLine(columns, [name, ...values], format)
        if (text.length < MOST_TEXT) continue
        sink(table, text)
        text = ''
      }
      if (text !== '') sink(table, text)
    }
  }
  return leftOut
}

const MOST_TEXT = 1 << 20

function openSound(root: string, { season }: Wanted): { ledger: Ledger } | { why: string } {
  try {
    const ledger = openLedger(root, { seasons: season === undefined ? 'all' : [season] })
    const errors = ledger.findings.filter(({ level }) => level === 'error')
    const first = errors[0]
    if (!first) return { ledger }
    const more = errors.length > 1 ? `, and ${errors.length - 1} more` : ''
    return { why: `${first.file}:${first.line} ${first.name}: ${first.message}${more}` }
  } catch (error) {
    if (error instanceof UserError) return { why: error.message }
    throw error
  }
}
