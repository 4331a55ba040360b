import type { Ledger } from '../../ledger/read/ledger.ts'
import type { Quantity, Range } from '../../records/quantity.ts'
import { clockText, type TimeRange } from '../../records/typed/time-range.ts'

/** What a column holds in every ledger, whether or not a row has it. */
type ColumnType = 'text' | 'number' | 'integer' | 'date' | 'boolean' | 'json'

export type Value = string | number | boolean | null | readonly unknown[] | Readonly<Record<string, unknown>>

export interface Column<Row> {
  name: string
  type: ColumnType
  of: (row: Row) => Value | undefined
}

type Of<Row, T> = (row: Row) => T | undefined

/** How a value of a record may stand in a table: a method of `Columns`. */
type Kind<V> = V extends string
  ? 'text' | 'date'
  : V extends number
    ? 'number' | 'integer'
    : V extends boolean
      ? 'truth'
      : V extends readonly number[]
        ? 'readings' | 'json'
        : V extends Range
          ? 'range'
          : V extends Quantity
            ? 'quantity'
            : 'json'

/** The kinds of columns, for rows of one type. */
export class Columns<Row> {
  /** Columns that are named like the keys of the row that they hold. */
  own(kinds: { [K in keyof Row & string]?: Kind<NonNullable<Row[K]>> }): Column<Row>[] {
    return Object.entries(kinds).flatMap(([key, kind]) =>
      this[kind as 'json'](key, (row) => row[key as keyof Row] as undefined),
    )
  }

  text(name: string, of: Of<Row, string | null>): Column<Row> {
    return { name, type: 'text', of }
  }

  date(name: string, of: Of<Row, string | null>): Column<Row> {
    return { name, type: 'date', of }
  }

  number(name: string, of: Of<Row, number | null>): Column<Row> {
    return { name, type: 'number', of }
  }

  integer(name: string, of: Of<Row, number | null>): Column<Row> {
    return { name, type: 'integer', of }
  }

  truth(name: string, of: Of<Row, boolean>): Column<Row> {
    return { name, type: 'boolean', of }
  }

  /** Lists and maps, as JSON. */
  json(name: string, of: Of<Row, readonly unknown[] | Readonly<Record<string, unknown>>>): Column<Row> {
    return { name, type: 'json', of }
  }

  /** A quantity in two columns: the figure, and its unit. */
  quantity(name: string, of: Of<Row, Quantity | null>): Column<Row>[] {
    return [this.number(name, (row) => of(row)?.value), this.text(`${name}_unit`, (row) => of(row)?.unit)]
  }

  /** A range of a known unit in two columns. */
  range(name: string, of: Of<Row, Range>): Column<Row>[] {
    return [
      this.number(`${name}_low`, (row) => of(row)?.low),
      this.number(`${name}_high`, (row) => of(row)?.high),
    ]
  }

  /** Clock times as `HH:MM`; `time_end_day` is 1 where it ended on the next day. */
  times(of: Of<Row, TimeRange>): Column<Row>[] {
    return [
      this.text('time_start', (row) => clock(of(row)?.start)),
      this.text('time_end', (row) => clock(of(row)?.end)),
      this.integer('time_end_day', (row) => {
        const end = of(row)?.end
        return end === null || end === undefined ? null : Math.floor(end / 1440)
      }),
    ]
  }

  /** Readings in two columns: their mean, and all of them. */
  readings(name: string, of: Of<Row, readonly number[]>): Column<Row>[] {
    return [
      this.number(name, (row) => {
        const list = of(row)
        return list === undefined ? null : list.reduce((sum, one) => sum + one, 0) / list.length
      }),
      this.json(`${name}_readings`, of),
    ]
  }
}

const clock = (minutes: number | null | undefined) =>
  minutes === null || minutes === undefined ? null : clockText(minutes)

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
