import { cellsOfLine } from '../read/csv.ts'
import { timeForm } from '../weather/time.ts'
import { asClock } from './clock-text.ts'
import { datePartsOf, hasDateParts } from './date-parts.ts'

/** How an export is laid out, before any of its columns is understood. */
export interface ExportShape {
  separator: string
  /** The heading's names (the texts of its lines joined, each name once), and the offsets of its start and end. */
  head: { names: string[]; start: number; end: number }
  /** Cells of the rows after it, trimmed. */
  rows: string[][]
}

interface Line {
  start: number
  end: number
  text: string
}

/** Most lines searched for the first row. */
const MOST_ABOVE = 60
/** Most lines of a heading: names, places, units. */
const MOST_HEAD = 3
/** Most rows examined to see what a column holds: over half a year of 10-minute rows. */
const MOST_ROWS = 30_000

/** Finds the heading of an export and its rows: the first row is the first line that holds a time or a day. */
export function shapeOfExport(text: string, separator?: string): ExportShape | null {
  const all = joinedHead(linesOf(text))
  const lines = all.filter((line) => !line.text.startsWith('#'))
  // If there is no other heading, one written as a comment will do.
  return shapeOf(lines, separator) ?? (lines.length < all.length ? shapeOf(all, separator) : null)
}

/** Joins the lines of a quoted cell that spans several lines, as spreadsheet headings do. */
function joinedHead(lines: readonly Line[]): Line[] {
  const joined: Line[] = []
  const isOpen = (text: string) => text.split('"').length % 2 === 0
  for (let at = 0; at < lines.length; at++) {
    let line = lines[at]!
    const most = at < MOST_ABOVE ? Math.min(at + MOST_IN_CELL, lines.length - 1) : at
    const end = isOpen(line.text)
      ? lines.findIndex((one, place) => place > at && place <= most && isOpen(one.text))
      : -1
    for (; at < end; at++)
      line = { ...line, end: lines[at + 1]!.end, text: `${line.text} ${lines[at + 1]!.text}` }
    joined.push(line)
  }
  return joined
}

/** Most lines of one heading cell. */
const MOST_IN_CELL = 6

function shapeOf(lines: readonly Line[], separator: string | undefined): ExportShape | null {
  const marks = separator === undefined ? [';', '\t', '|', ','] : [separator === 'tab' ? '\t' : separator]
  const found = marks.flatMap((mark) => {
    const at = lines.slice(0, MOST_ABOVE).findIndex(({ text }) => isRow(cellsOf(text, mark)))
    return at < 0 ? [] : [{ mark, at, width: cellsOf(lines[at]!.text, mark).length }]
  })
  const best = found.sort((a, b) => b.width - a.width)[0] ?? inParts(lines, marks)
  if (!best || best.at === 0) return null
  const head = headAbove(lines, best)
  if (!head) return null
  const rows = lines.slice(best.at, best.at + MOST_ROWS).map(({ text }) => cellsOf(text, best.mark))
  return { separator: best.mark, head, rows }
}

/** The first row under a heading with separate year, month and day columns. */
function inParts(lines: readonly Line[], marks: readonly string[]) {
  for (const mark of marks)
    for (let at = 1; at < Math.min(lines.length, MOST_ABOVE); at++) {
      const cells = cellsOf(lines[at]!.text, mark)
      const above = [at - 1, at - 2].map((line) => cellsOf(lines[line]?.text ?? '', mark))
      if (hasDateParts(cells) && above.some((names) => datePartsOf(names)))
        return { mark, at, width: cells.length }
    }
  return null
}

function headAbove(
  lines: readonly Line[],
  { mark, at, width }: { mark: string; at: number; width: number },
): ExportShape['head'] | null {
  const parts: string[][] = []
  let first = at
  // Rows may end in empty cells.
  const least = cellsOf(lines[at]!.text, mark).findLastIndex((cell) => cell !== '') + 1
  while (first > 0 && parts.length < MOST_HEAD) {
    const cells = cellsOf(lines[first - 1]!.text.replace(/^#\s*/, ''), mark)
    const filled = cells.filter((cell) => cell !== '')
    // A line of descriptive text above the heading has a different number of cells.
    const isHead =
      cells.length >= least - 1 &&
      cells.length <= width + 1 &&
      filled.length > width / 3 &&
      filled.every((cell) => !isNumber(cell))
    if (!isHead) break
    parts.unshift(cells)
    first--
  }
  if (parts.length === 0) return null
  const names = Array.from({ length: Math.max(width, parts[0]!.length) }, (_, column) =>
    parts
      .map((cells) => cells[column] ?? '')
      .filter((cell, place, all) => cell !== '' && all.indexOf(cell) === place)
      .join(' '),
  )
  return { names: eachOnce(names), start: lines[first]!.start, end: lines[at - 1]!.end }
}

const isNumber = (text: string) => /^[+-]?\d+(?:[.,]\d+)?$/.test(text)

/** Numbers columns that share a name. */
function eachOnce(names: readonly string[]): string[] {
  return names.map((name, at) => {
    if (name === '') return `column ${at + 1}`
    return names.indexOf(name) === names.lastIndexOf(name) ? name : `${name} (column ${at + 1})`
  })
}

/** Length of the shortest date: skipping shorter cells saves most of the time in a hostile file. */
const SHORTEST_DATE = 5

const isRow = (cells: readonly string[]) =>
  cells.length > 1 && cells.some((cell) => cell.length >= SHORTEST_DATE && isDated(cell))

function isDated(cell: string): boolean {
  const form = timeForm(asClock(cell))
  return form === 'moment' || form === 'day'
}

const cellsOf = (line: string, mark: string): string[] =>
  cellsOfLine(line, mark).map(({ text }) => text.trim())

function linesOf(text: string): Line[] {
  const lines: Line[] = []
  for (let start = 0; start < text.length; ) {
    const stop = text.indexOf('\n', start)
    const end = stop < 0 ? text.length : stop
    const line = text.slice(start, end).replace(/\r$/, '')
    if (line.trim() !== '') lines.push({ start, end, text: line })
    start = end + 1
  }
  return lines
}

/** The order of day and month in an export; null where its dates fit both. */
export function orderOf(dates: readonly string[]): 'iso' | 'day-first' | 'month-first' | null {
  const parts = [...new Set(dates.map((text) => /^[\d./-]+/.exec(text)?.[0] ?? ''))]
    .filter((text) => text !== '')
    .map((text) => ({ text, numbers: text.split(/[-./]/).map(Number) }))
  if (parts.some(({ text }) => /^\d{4}/.test(text))) return 'iso'
  if (parts.some(({ numbers }) => numbers[0]! > 12)) return 'day-first'
  if (parts.some(({ numbers }) => numbers[1]! > 12)) return 'month-first'
  // Dots between day and month are only used with the day first.
  if (parts.every(({ text }) => text.includes('.'))) return 'day-first'
  // Days are consecutive: the number that goes up by one is the day.
  const steps = (place: 0 | 1) =>
    parts.filter(
      ({ numbers }, at) => at > 0 && Math.abs(numbers[place]! - parts[at - 1]!.numbers[place]!) === 1,
    ).length
  const [first, second] = [steps(0), steps(1)]
  if (first > second && second === 0) return 'day-first'
  return second > first && first === 0 ? 'month-first' : null
}

/** The decimal mark used in cells; null where they have none or both. */
export function markOf(cells: readonly string[]): 'point' | 'comma' | null {
  const comma = cells.some((cell) => /^[+-]?\d+,\d+$/.test(cell))
  const point = cells.some((cell) => /^[+-]?\d*\.\d+$/.test(cell))
  if (comma === point) return null
  return comma ? 'comma' : 'point'
}
