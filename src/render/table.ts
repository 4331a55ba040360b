import Table from 'cli-table3'
import { highest } from '../agronomy/statistics/extremes.ts'
import { type Column, type Columns, shownOf } from './columns.ts'
import { safeLine } from './safe.ts'

const NO_LINES = {
  top: '', 'top-mid': '', 'top-left': '', 'top-right': '',
  bottom: '', 'bottom-mid': '', 'bottom-left': '', 'bottom-right': '',
  left: '', 'left-mid': '', mid: '', 'mid-mid': '', right: '', 'right-mid': '', middle: '  ',
} // biome-ignore format: the parts of a frame read better in few lines

/** Longest word that a column stays wide enough for, and a shorter limit for text where that is too wide; longer words are cut. */
const LONGEST_WORD = 20
const SHORT = 8

/** A column with what each row has in it. */
type Filled = Pick<Column<never, never>, 'title' | 'number' | 'most'> & { cells: readonly string[] }

/**
 * A table without lines: columns aligned, two spaces between them, no wider than the screen. The widest text wraps
 * first. Cells come from ledgers and are made safe.
 */
export function renderTable<Row>(
  rows: readonly Row[],
  written: Columns<Row, string | number>,
  screen: number,
): string {
  const columns = shownOf(written).map(({ title, number, most, cell }): Filled => {
    return { title, number, most, cells: rows.map((row, index) => String(cell(row, index))) }
  })
  const widths = widthsOf(columns, screen)
  // Wrapping takes longer than all the rest, so it is asked for where a cell needs it: letters two cells wide always may.
  const cell = (text: string, index: number) => ({
    content: text,
    wordWrap: plainLength(text) > widths[index]! || WIDE.test(text),
  })
  const lines = [columns.map(({ title }, index) => cell(title, index))]
  for (const at of rows.keys())
    lines.push(columns.map(({ cells }, index) => cell(safeCell(cutWords(cells[at]!, widths[index]!)), index)))
  const text = partsOf(lines).map((part) => {
    const table = new Table({
      chars: NO_LINES,
      style: { 'padding-left': 0, 'padding-right': 0, head: [], border: [], compact: true },
      colAligns: columns.map(({ number }) => (number ? 'right' : 'left')),
      colWidths: widths,
    })
    for (const line of part) table.push(line)
    return table.toString()
  })
  return `${text
    .join('\n')
    .split('\n')
    .map((line) => line.trimEnd())
    .join('\n')}\n`
}

/** Rows laid out at a time: for each row the library looks at all of them, and the widths are fixed already. */
const AT_A_TIME = 50

const partsOf = <T>(rows: readonly T[]): T[][] =>
  Array.from({ length: Math.ceil(rows.length / AT_A_TIME) }, (_, part) =>
    rows.slice(part * AT_A_TIME, (part + 1) * AT_A_TIME),
  )

const widthOf = (widths: readonly number[]) =>
  widths.reduce((sum, width) => sum + width, 2 * (widths.length - 1))

/** The widths of columns; where the table doesn't fit the screen, columns of text shrink first, then those of figures. */
function widthsOf(columns: readonly Filled[], screen: number): number[] {
  const natural = columns.map(({ title, cells }) =>
    highest([...title.split('\n').map((line) => line.length), ...cells.map(plainLength)]),
  )
  if (widthOf(natural) <= screen) return natural
  const fit = natural.map((width, index) => Math.min(width, columns[index]!.most ?? width))
  const over = () => widthOf(fit) - screen
  for (const [ofFigures, least] of [
    [false, LONGEST_WORD],
    [true, LONGEST_WORD],
    [false, SHORT],
  ] as const) {
    if (over() <= 0) return fit
    const room = columns.map((column, index) =>
      (column.number ?? false) === ofFigures ? fit[index]! - Math.min(least, longestWord(column)) : 0,
    )
    for (let left = over(); left > 0 && highest(room) > 0; left -= 1) {
      const widest = room.indexOf(highest(room))
      room[widest]! -= 1
      fit[widest]! -= 1
    }
  }
  return fit
}

function longestWord({ title, cells }: Filled): number {
  const words = [title, ...cells].flatMap((cell) => cell.replace(COLOUR, '').split(/\s/))
  return highest(words.map((word) => [...word].length))
}

/** Puts breaks into words that are longer than their column, after a hyphen where there is one. */
function cutWords(cell: string, width: number): string {
  if (!cell.split(/\s/).some((word) => word.length > width) || cell.replace(COLOUR, '') !== cell) return cell
  const cut = (word: string): string => {
    if (word.length <= width) return word
    const hyphen = word.lastIndexOf('-', width - 1)
    const at = hyphen > 0 ? hyphen + 1 : width
    return `${word.slice(0, at)} ${cut(word.slice(at))}`
  }
  return cell.split(' ').map(cut).join(' ')
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
