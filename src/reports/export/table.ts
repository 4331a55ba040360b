import type { Ledger } from '../../ledger/read/ledger.ts'
import { type Column, Columns, type Value } from './columns.ts'

/** One kind of record as a table: the same columns with the same types, whatever a ledger holds. */
export interface Table {
  name: string
  columns: readonly { name: string; type: Column<never>['type'] }[]
  /** The rows of a ledger, one value for each column; null where it isn't written. */
  rows: (ledger: Ledger) => Iterable<Value[]>
}

/** Builds a table from what its rows are and how each column reads one. */
export function table<Row>(
  name: string,
  rowsOf: (ledger: Ledger) => Iterable<Row>,
  columnsOf: (columns: Columns<Row>) => readonly Column<Row>[],
): Table {
  const columns = columnsOf(new Columns<Row>())
  return {
    name,
    columns: columns.map((column) => ({ name: column.name, type: column.type })),
    *rows(ledger) {
      for (const row of rowsOf(ledger)) yield columns.map(({ of }) => of(row) ?? null)
    },
  }
}
