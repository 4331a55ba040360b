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
import { UsageError } from '../plumbing/errors.ts'

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
  const roots = new Map<string, string>()
  for (const folder of folders) {
    const root = resolve(cwd, folder)
    if (!isLedger(root))
      throw new UsageError(
        `${relative(cwd, root) || root} has no vineyard.yaml`,
        'check the path after --ledger',
      )
    const real = realpathSync(root)
    if (!roots.has(real)) roots.set(real, root)
  }
  const names = [...roots.values()].map((root) => basename(root))
  return [...roots.values()].map((root, at) => {
    const isAlone = names.indexOf(names[at]!) === names.lastIndexOf(names[at]!)
    return { name: isAlone ? names[at]! : relative(cwd, root), root }
  })
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

/** A choice of rows by what one column holds, or by the list in the column of its plural. */
export interface Filter {
  /** The option that asks for it. */
  option: string
  column: 'season' | 'date' | 'block'
  fits: (value: Value) => boolean
}

/** Where a table has the column that a filter looks at; -1 in tables that hold no such thing. */
export const columnOf = ({ columns }: Table, { column }: Filter): number =>
  columns.findIndex(({ name }) => name === column || name === `${column}s`)

interface Writing {
  tables: readonly Table[]
  sink: Sink
  format: Format
  /** The only season to read, where not all are wanted. */
  season: number | undefined
  /** A table without the column of one gives all its rows. */
  filters: readonly Filter[]
}

/**
 * Writes the tables ledger by ledger, so that only one is in memory at a time. A broken ledger is left out entirely.
 * @returns the names of those left out, each with the reason.
 */
export function writeTables(
  ledgers: readonly LedgerFolder[],
  { tables, sink, format, season, filters }: Writing,
): { name: string; why: string }[] {
  const plans = tables.map((table) => ({
    table,
    columns: ['ledger', ...table.columns.map(({ name }) => name)],
    choices: filters.flatMap((filter) => {
      const at = columnOf(table, filter)
      return at < 0 ? [] : [{ at, fits: filter.fits }]
    }),
  }))
  for (const { table, columns } of plans) sink(table, headLine(columns, format))
  const leftOut: { name: string; why: string }[] = []
  for (const { name, root } of ledgers) {
    const opened = openSound(root, season)
    if ('why' in opened) {
      leftOut.push({ name, why: opened.why })
      continue
    }
    for (const { table, columns, choices } of plans) {
      let text = ''
      for (const values of table.rows(opened.ledger)) {
        if (!choices.every(({ at, fits }) => fits(values[at]!))) continue
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

function openSound(root: string, season: number | undefined): { ledger: Ledger } | { why: string } {
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
