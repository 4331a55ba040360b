import {
  closeSync,
  existsSync,
  mkdirSync,
  openSync,
  readdirSync,
  realpathSync,
  writeFileSync,
  writeSync,
} from 'node:fs'
import { basename, join, relative, resolve } from 'node:path'
import { openLedger } from '../../ledger/read/open.ts'
import type { Format } from '../../reports/export/csv.ts'
import { headLine, rowLine } from '../../reports/export/csv.ts'
import type { Table } from '../../reports/export/table.ts'
import { UsageError } from './call.ts'

export interface Book {
  /** What its rows carry in the column `ledger`. */
  name: string
  root: string
}

/** The ledgers right inside a folder, by name. @throws UsageError where there is none. */
export function booksIn(cwd: string, folder: string): Book[] {
  const path = resolve(cwd, folder)
  let names: string[]
  try {
    names = readdirSync(path).filter((name) => existsSync(join(path, name, 'vineyard.yaml')))
  } catch {
    throw new UsageError(`there is no folder ${folder}`, 'check the path after --ledgers')
  }
  if (names.length === 0)
    throw new UsageError(
      `no folder in ${folder} holds a vineyard.yaml`,
      'name the folder that the ledgers stand in',
    )
  return names.sort().map((name) => ({ name, root: join(path, name) }))
}

/** Ledgers named one by one: by their folder's name, or by their path where two have the same. */
export function booksNamed(cwd: string, folders: readonly string[]): Book[] {
  const books = folders.map((folder) => ({
    name: basename(resolve(cwd, folder)),
    root: resolve(cwd, folder),
  }))
  for (const { root } of books)
    if (!existsSync(join(root, 'vineyard.yaml')))
      throw new UsageError(
        `${relative(cwd, root) || root} has no vineyard.yaml`,
        'check the path after --ledger',
      )
  const unique = books.filter(
    (book, index) =>
      books.findIndex((other) => realpathSync(other.root) === realpathSync(book.root)) === index,
  )
  const twice = (name: string) => unique.filter((book) => book.name === name).length > 1
  return unique.map((book) => (twice(book.name) ? { ...book, name: relative(cwd, book.root) } : book))
}

export interface Sink {
  write(table: Table, text: string): void
  close(): void
}

/** One file for each table in a folder, and `tables.json` with the types of their columns; none that stands is written over. */
export function filesIn(cwd: string, folder: string, tables: readonly Table[], format: Format): Sink {
  const path = resolve(cwd, folder)
  mkdirSync(path, { recursive: true })
  const taken = tables.find(({ name }) => existsSync(join(path, `${name}.${format}`)))
  if (taken)
    throw new UsageError(
      `${join(folder, `${taken.name}.${format}`)} is there already; nothing was written`,
      'name an empty folder, or move the old tables away',
    )
  writeFileSync(join(path, 'tables.json'), `${JSON.stringify(typesOf(tables), null, 2)}\n`)
  const handles = new Map(
    tables.map((table) => [table, openSync(join(path, `${table.name}.${format}`), 'wx')]),
  )
  return {
    write(table, text) {
      const bytes = Buffer.from(text, 'utf8')
      for (let done = 0; done < bytes.length; ) done += writeSync(handles.get(table)!, bytes, done)
    },
    close: () => {
      for (const handle of handles.values()) closeSync(handle)
    },
  }
}

const typesOf = (tables: readonly Table[]) =>
  Object.fromEntries(
    tables.map(({ name, columns }) => [
      name,
      { ledger: 'text', ...Object.fromEntries(columns.map((column) => [column.name, column.type])) },
    ]),
  )

const MOST_TEXT = 1 << 20

/**
 * Writes the tables of one ledger after the other, so that memory holds one at a time. Broken ledgers are left
 * out whole.
 * @returns the names of those left out, with why.
 */
export function writeTables(
  books: readonly Book[],
  { tables, sink, format }: { tables: readonly Table[]; sink: Sink; format: Format },
): { name: string; why: string }[] {
  const columns = new Map(
    tables.map((table) => [table, ['ledger', ...table.columns.map(({ name }) => name)]]),
  )
  for (const table of tables) sink.write(table, headLine(columns.get(table)!, format))
  const leftOut: { name: string; why: string }[] = []
  for (const { name, root } of books) {
    const opened = openSound(root)
    if ('why' in opened) {
      leftOut.push({ name, why: opened.why })
      continue
    }
    for (const table of tables) {
      let text = ''
      for (const values of table.rows(opened.ledger)) {
        text += rowLine(columns.get(table)!, [name, ...values], format)
        if (text.length < MOST_TEXT) continue
        sink.write(table, text)
        text = ''
      }
      if (text !== '') sink.write(table, text)
    }
  }
  return leftOut
}

function openSound(root: string): { ledger: ReturnType<typeof openLedger> } | { why: string } {
  try {
    const ledger = openLedger(root, { seasons: 'all' })
    const errors = ledger.findings.filter(({ level }) => level === 'error')
    const first = errors[0]
    if (!first) return { ledger }
    const more = errors.length > 1 ? `, and ${errors.length - 1} more` : ''
    return { why: `${first.file}:${first.line} ${first.name}: ${first.message}${more}` }
  } catch (error) {
    if (error instanceof Error && 'help' in error) return { why: error.message }
    throw error
  }
}
