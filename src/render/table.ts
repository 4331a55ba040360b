import Table from 'cli-table3'
import { highest } from '../agronomy/statistics/extremes.ts'
import { safeLine } from './safe.ts'

export interface Column {
  title: string
  align?: 'left' | 'right'
  /** Widest that the column may get; longer text wraps inside it. */
  most?: number
}

const NO_LINES = {
  top: '', 'top-mid': '', 'top-left': '', 'top-right': '',
  bottom: '', 'bottom-mid': '', 'bottom-left': '', 'bottom-right': '',
  left: '', 'left-mid': '', mid: '', 'mid-mid': '', right: '', 'right-mid': '', middle: '  ',
} // biome-ignore format: the parts of a frame read better in few lines

/** A table without lines: columns aligned, two spaces between them. Cells come from ledgers and are made safe. */
export function renderTable(columns: readonly Column[], rows: readonly (readonly string[])[]): string {
  const natural = columns.map(({ title }, index) =>
    Math.max(
      highest(title.split('\n').map((line) => line.length)),
      ...rows.map((row) => plainLength(row[index] ?? '')),
    ),
  )
  const widths = natural.map((width, index) => Math.min(width, columns[index]!.most ?? width))
  // Looking for places to wrap takes longer than all the rest; letters of two cells' width may need it anywhere.
  const wordWrap =
    widths.some((width, index) => width < natural[index]!) ||
    rows.some((row) => row.some((cell) => WIDE.test(cell)))
  const table = new Table({
    chars: NO_LINES,
    style: { 'padding-left': 0, 'padding-right': 0, head: [], border: [], compact: true },
    colAligns: columns.map(({ align }) => align ?? 'left'),
    colWidths: widths,
    wordWrap,
  })
  table.push(columns.map(({ title }) => title))
  for (const row of rows) table.push(columns.map((_, index) => safeCell(row[index] ?? '')))
  return `${table
    .toString()
    .split('\n')
    .map((line) => line.trimEnd())
    .join('\n')}\n`
}

/** The colours of `style.ts`, and no others. */
export const COLOUR = /\u001b\[(?:1|2|22|31|32|33|39)m/g

/** What may take more than one cell of a terminal: anything beyond the letters of Europe and common signs. */
const WIDE = /[^\n\u001b\x20-\u02ff\u2010-\u2027\u2030-\u205e\u20ac\u2190-\u21ff\u2200-\u22ff]/

const plainLength = (cell: string) =>
  highest(
    cell
      .replace(COLOUR, '')
      .split('\n')
      .map((line) => [...safeLine(line)].length),
  )

/** Makes a cell safe but keeps our own colours. */
function safeCell(cell: string): string {
  const colours = cell.match(COLOUR) ?? []
  const pieces = cell.split(COLOUR).map((piece) => piece.split('\n').map(safeLine).join('\n'))
  return pieces.map((piece, index) => piece + (colours[index] ?? '')).join('')
}
