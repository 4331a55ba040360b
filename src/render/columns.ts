/** A column of a table, on a screen or on a page. */
export interface Column {
  title: string
  /** Whether it holds figures, which are right-aligned. */
  number?: boolean
  /** Greatest width where the table does not fit the screen; longer text wraps. */
  most?: number
}

/** Columns as reports give them: a string is the heading of a column of words. */
export type Columns = readonly (Column | string)[]

export const columnsOf = (columns: Columns): Column[] =>
  columns.map((column) => (typeof column === 'string' ? { title: column } : column))

/** Columns of figures, by their headings. */
export const numbers = (...titles: string[]): Column[] => titles.map((title) => ({ title, number: true }))
