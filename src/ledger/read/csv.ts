/** A cell of a spreadsheet: its text without quotation marks, and its place in the file. */
interface CsvCell {
  text: string
  from: number
  to: number
}

/** A row of a spreadsheet; it spans several lines where a quoted cell does. */
export interface CsvRow {
  /** Number of its first line, from 1, and the offsets of its text. */
  line: number
  from: number
  to: number
  cells: CsvCell[]
  /** Whether its last cell has an unclosed quotation mark: the row then runs to the file's end. */
  open: boolean
}

/**
 * The rows of a spreadsheet by RFC 4180: a cell may be in double quotes, contain separators and line breaks
 * there, and double its quotation marks. A row of blank cells is left out.
 */
export function* csvRows(text: string, separator: string): Generator<CsvRow> {
  let line = 1
  for (let at = 0; at < text.length; ) {
    const row = rowAt(text, { from: at, line, separator })
    if (row.cells.some((cell) => cell.text.trim() !== '')) yield row
    for (let step = row.from; step < row.next; step++) if (text[step] === '\n') line++
    at = row.next
  }
}

/**
 * The cells of one line in a file with one row per line, as stations write them: an unclosed quotation mark
 * takes only the rest of its line.
 */
export const cellsOfLine = (line: string, separator: string): CsvCell[] =>
  rowAt(line, { from: 0, line: 1, separator }).cells

/** The texts of a line's cells. */
export const splitLine = (line: string, separator: string): string[] =>
  line.includes('"') ? cellsOfLine(line, separator).map(({ text }) => text) : line.split(separator)

/** The separator that a header uses most: semicolon, tab or comma. */
export function separatorOf(header: string): string {
  const count = (mark: string) => header.split(mark).length
  return [';', '\t', ','].reduce((best, mark) => (count(mark) > count(best) ? mark : best))
}

function rowAt(
  text: string,
  { from, line, separator }: { from: number; line: number; separator: string },
): CsvRow & { next: number } {
  const cells: CsvCell[] = []
  let open = false
  let start = from
  let cell = ''
  let at = from
  for (; at < text.length; at++) {
    const character = text[at]!
    if (open) {
      if (character !== '"') cell += character
      else if (text[at + 1] === '"') cell += text[at++]!
      else open = false
    } else if (character === '"' && cell.trim() === '') {
      open = true
      cell = ''
    } else if (character === separator) {
      cells.push({ text: cell, from: start, to: at })
      cell = ''
      start = at + 1
    } else if (character === '\n') break
    else cell += character
  }
  const next = at + 1
  const to = text[at - 1] === '\r' && at > start ? at - 1 : at
  const last = cell.endsWith('\r') && !open ? cell.slice(0, -1) : cell
  cells.push({ text: last, from: start, to })
  for (const one of cells) one.text = one.text.replace(/\r\n?/g, '\n')
  return { line, from, to, cells, open, next }
}
