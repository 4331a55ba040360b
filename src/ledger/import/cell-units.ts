import { commonest } from '../weather/commonest.ts'
import type { HeadedColumn, Recognising } from './recognised.ts'
import { unitIn } from './weather-words.ts'

/** A number followed by a unit, as in `12.3 °C` or `0.2in`. */
const WITH_TAIL = /^([+-]?(?:\d[\d.,]*|[.,]\d+))\s*([^\d\s.,+-].*)$/

/** Rain too little to be measured. */
const TRACE = /^(?:t|tr|trace)$/i

/** Share of a column's filled cells with the same unit, from which it counts as the column's unit. */
const MOST = 0.5

/**
 * Moves units from the cells to their columns and leaves plain numbers. A cell with
 * a different unit from most of its column stays as it is, and doesn't count as a number.
 * @returns how a cell of a column is read in the rest of the file
 */
export function takeCellUnits(work: Recognising): (cell: string, at: number) => string {
  const { shape, columns } = work
  const tails = columns.map((column) => {
    const tail = column.as === 'time' || column.as === 'date' ? undefined : tailOf(shape.rows, column.at)
    return tail !== undefined && takeUnit(work, column, tail) ? tail : null
  })
  const numberOf = (cell: string, at: number) => {
    if (columns[at]?.as === 'rain' && TRACE.test(cell)) return '0'
    const match = tails[at] == null ? null : WITH_TAIL.exec(cell)
    return match && plainTail(match[2]!) === tails[at] ? match[1]! : cell
  }
  if (tails.some((tail) => tail !== null)) shape.rows = shape.rows.map((row) => row.map(numberOf))
  return numberOf
}

/** Takes a unit that the cells of a column end in; false where it is none for the column. */
function takeUnit({ questions }: Recognising, { name, words }: HeadedColumn, tail: string): boolean {
  const degrees = unitIn(tail, 'temperature')
  if (words.about === null && degrees !== null) Object.assign(words, { about: 'temperature' })
  const unit = unitIn(tail, words.about)
  if (unit !== null && words.unit !== null && words.unit !== unit)
    questions.push({
      level: 'error',
      name: 'unit-unclear',
      message: `column \`${name}\` says ${shown(words.unit)}, and its cells say ${shown(unit)}`,
      help: `say which: --column-units ${words.about}=${words.unit}, or --column-units ${words.about}=${unit}`,
    })
  else if (unit !== null) words.unit = unit
  return unit !== null || degrees !== null
}

const shown = (unit: string) => (unit === 'C' || unit === 'F' ? `°${unit}` : unit)

const plainTail = (tail: string) => tail.replace(/\s+/g, '').toLowerCase()

/** The text after the numbers in most filled cells of a column. */
function tailOf(rows: readonly string[][], at: number): string | undefined {
  const filled = rows.slice(0, 1000).flatMap((row) => row[at] || [])
  const [best] = commonest(filled.flatMap((cell) => WITH_TAIL.exec(cell)?.[2] ?? []).map(plainTail))
  return best && best[1] > filled.length * MOST ? best[0] : undefined
}
