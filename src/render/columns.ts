/** A column of a table, on a screen or on a page. */
export interface Column {
  title: string
  /** Figures stand right-aligned; words left. */
  number?: boolean
  /** Widest that the column may get on a screen where not all fits; longer text wraps inside it. */
  most?: number
}

/** Columns as they are written: words by their heading alone. */
export type Columns = readonly (Column | string)[]

export const columnsOf = (columns: Columns): Column[] =>
  columns.map((column) => (typeof column === 'string' ? { title: column } : column))

/** Columns of figures, by their headings. */
export const numbers = (...titles: string[]): Column[] => titles.map((title) => ({ title, number: true }))
