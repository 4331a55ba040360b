/** A column of a table, on a screen or on a page. */
export interface Column<Row, Cell> {
  title: string
  /** What a row has in this column. */
  cell: (row: Row, index: number) => Cell
  /** Whether it holds figures, which are right-aligned. */
  number?: boolean
  /** Greatest width where the table does not fit the screen; longer text wraps. */
  most?: number
}

/** The columns of a table in their order; those that are false are left out. */
export type Columns<Row, Cell> = readonly (Column<Row, Cell> | false)[]

export const shownOf = <Row, Cell>(columns: Columns<Row, Cell>): Column<Row, Cell>[] =>
  columns.filter((column) => column !== false)

/** A column of words. */
export const words = <Row, Cell>(
  title: string,
  cell: Column<Row, Cell>['cell'],
  most?: number,
): Column<Row, Cell> => ({ title, cell, most })

/** A column of figures. */
export const numbers = <Row, Cell>(title: string, cell: Column<Row, Cell>['cell']): Column<Row, Cell> => ({
  title,
  cell,
  number: true,
})
