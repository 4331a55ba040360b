/** A line of a file: its number from 1, the offset of its first character, and its text without the line end. */
export interface CsvLine {
  start: number
  text: string
}

/** The lines that hold something, one after another; those that begin with `#` are comments. */
export function* csvLines(text: string): Generator<CsvLine> {
  for (let start = 0; start < text.length; ) {
    const stop = text.indexOf('\n', start)
    const end = stop < 0 ? text.length : stop
    const line = text.slice(start, text[end - 1] === '\r' ? end - 1 : end)
    if (line !== '' && line[0] !== '#' && line.trim() !== '') yield { start, text: line }
    start = end + 1
  }
}

/** The cells of a line, where a cell may stand in double quotes (RFC 4180, but a cell ends with its line). */
export function splitLine(line: string, separator: string): string[] {
  if (!line.includes('"')) return line.split(separator)
  const cells: string[] = []
  let cell = ''
  let quoted = false
  for (let at = 0; at < line.length; at++) {
    const character = line[at]!
    if (quoted && character === '"' && line[at + 1] === '"') {
      cell += '"'
      at++
    } else if (character === '"' && (quoted || cell.trim() === '')) {
      quoted = !quoted
      if (quoted) cell = ''
    } else if (character === separator && !quoted) {
      cells.push(cell)
      cell = ''
    } else cell += character
  }
  return [...cells, cell]
}

/** Where the cell of a line starts, and how long it is, for a finding. */
export function cellSpan(line: string, separator: string, index: number): { from: number; to: number } {
  let from = 0
  let quoted = false
  let cell = 0
  for (let at = 0; at <= line.length; at++) {
    if (line[at] === '"') quoted = !quoted
    if (at < line.length && (line[at] !== separator || quoted)) continue
    if (cell === index) return { from, to: at }
    cell++
    from = at + 1
  }
  return { from: 0, to: line.length }
}

/** The separator that a header uses most: semicolon, tab or comma. */
export function separatorOf(header: string): string {
  const counts = [';', '\t', ','].map((mark) => ({ mark, count: header.split(mark).length }))
  return counts.reduce((best, one) => (one.count > best.count ? one : best)).mark
}
