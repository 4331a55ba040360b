/** A cell's value; numbers stay numbers, and unknown values are empty cells. */
export type Cell = string | number | boolean | null | undefined

/**
 * One line of a CSV file (RFC 4180, June 2005): cells between commas, quoted where they hold a comma, a quote
 * or a line break, ended by CR LF. Text that a spreadsheet could run as a formula is defused.
 * @throws RangeError where a number isn't finite: a figure that can't be computed is null.
 */
export function csvLine(cells: readonly Cell[]): string {
  return `${cells.map(csvCell).join(',')}\r\n`
}

/** A whole table: the names of the columns, then the rows. */
export function csvText(columns: readonly string[], rows: Iterable<readonly Cell[]>): string {
  let text = csvLine(columns)
  for (const row of rows) text += csvLine(row)
  return text
}

function csvCell(cell: Cell): string {
  if (cell === null || cell === undefined) return ''
  if (typeof cell === 'boolean') return String(cell)
  if (typeof cell === 'number') {
    if (!Number.isFinite(cell)) throw new RangeError('a cell requires a finite number')
    return String(cell)
  }
  const text = defuse(cell)
  return /[",;\t\r\n]|^\s|\s$/.test(text) ? `"${text.replaceAll('"', '""')}"` : text
}

const MARKS = '=+\\-@\\uff1d\\uff0b\\uff0d\\uff20'
const BLANK = '[^\\S\\t\\r\\n]|[\\u200b\\ufeff]'
const FORMULA = new RegExp(`(?<=^|[;\\t\\r\\n])(?=(?:${BLANK})*[${MARKS}])|^(?=[\\t\\r\\n])`, 'g')

/**
 * Puts an apostrophe before text that a spreadsheet would take for a formula: after blanks too, in full-width
 * letters, and inside the text behind a mark at which a spreadsheet of another locale would begin a new cell.
 * Source: OWASP, "CSV Injection" (list of characters; from memory).
 */
function defuse(text: string): string {
  return text.replace(FORMULA, "'")
}
