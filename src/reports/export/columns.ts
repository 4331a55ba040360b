import type { Quantity, Range } from '../../records/quantity.ts'
import { clockText, type TimeRange } from '../../records/time-range.ts'

/** What a column holds in every ledger, whether or not a row has it. */
export type ColumnType = 'text' | 'number' | 'integer' | 'date' | 'boolean' | 'json'

export type Value = string | number | boolean | null | readonly unknown[] | Readonly<Record<string, unknown>>

export interface Column<Row> {
  name: string
  type: ColumnType
  of: (row: Row) => Value | undefined
}

type Of<Row, T> = (row: Row) => T | undefined

export const text = <Row>(name: string, of: Of<Row, string | null>): Column<Row> => ({
  name,
  type: 'text',
  of,
})
export const date = <Row>(name: string, of: Of<Row, string | null>): Column<Row> => ({
  name,
  type: 'date',
  of,
})
export const number = <Row>(name: string, of: Of<Row, number | null>): Column<Row> => ({
  name,
  type: 'number',
  of,
})
export const integer = <Row>(name: string, of: Of<Row, number | null>): Column<Row> => ({
  name,
  type: 'integer',
  of,
})
export const truth = <Row>(name: string, of: Of<Row, boolean>): Column<Row> => ({ name, type: 'boolean', of })
export const json = <Row>(
  name: string,
  of: Of<Row, readonly unknown[] | Readonly<Record<string, unknown>>>,
): Column<Row> => ({
  name,
  type: 'json',
  of,
})

/** A quantity in two columns: the figure, and its unit. */
export const quantity = <Row>(name: string, of: Of<Row, Quantity | null>): Column<Row>[] => [
  number(name, (row) => of(row)?.value),
  text(`${name}_unit`, (row) => of(row)?.unit),
]

/** A range in two or three columns; without a unit where it is a bare number. */
export const range = <Row>(name: string, of: Of<Row, Range>, unit = true): Column<Row>[] => [
  number(`${name}_low`, (row) => of(row)?.low),
  number(`${name}_high`, (row) => of(row)?.high),
  ...(unit ? [text<Row>(`${name}_unit`, (row) => of(row)?.unit)] : []),
]

/** Clock times as `HH:MM`; `end_day` is 1 where it ended on the next day. */
export const times = <Row>(of: Of<Row, TimeRange>): Column<Row>[] => [
  text('time_start', (row) => clock(of(row)?.start)),
  text('time_end', (row) => clock(of(row)?.end)),
  integer('time_end_day', (row) => {
    const end = of(row)?.end
    return end === null || end === undefined ? null : Math.floor(end / 1440)
  }),
]

const clock = (minutes: number | null | undefined) =>
  minutes === null || minutes === undefined ? null : clockText(minutes)

/** Readings in two columns: their mean, and all of them. */
export const readings = <Row>(name: string, of: Of<Row, readonly number[]>): Column<Row>[] => [
  number(name, (row) => {
    const list = of(row)
    return list === undefined ? null : list.reduce((sum, one) => sum + one, 0) / list.length
  }),
  json(`${name}_readings`, of),
]
