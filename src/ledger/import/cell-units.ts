import type { Recognising } from './recognised.ts'
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
export function takeCellUnits(
  work: Recognising,
  times: readonly number[],
): (cell: string, at: number) => string {
  const { shape, words, columns } = work
  const tails = columns.map((_, at) => {
    const tail = times.includes(at) ? null : tailOf(shape.rows, at)
    const isUnit = tail !== null && (unitIn(tail, words[at]!.about) ?? unitIn(tail, 'temperature')) !== null
    return isUnit ? tail : null
  })
  for (const [at, tail] of tails.entries()) {
    if (tail === null) continue
    const word = words[at]!
    const named = unitIn(tail, word.about)
    const isDegrees = word.about === null && unitIn(tail, 'temperature') !== null
    if (isDegrees) Object.assign(word, { about: 'temperature', unit: unitIn(tail, 'temperature') })
    else if (named !== null && word.unit !== null && word.unit !== named)
      work.questions.push({
        level: 'error',
        name: 'unit-unclear',
        message: `column \`${columns[at]!.name}\` says ${shown(word.unit)}, and its cells say ${shown(named)}`,
        help: `say which: --column-units ${word.about}=${word.unit}, or --column-units ${word.about}=${named}`,
      })
    else if (named !== null) word.unit = named
  }
  const numberOf = (cell: string, at: number) => {
    if (columns[at]?.as === 'rain' && TRACE.test(cell)) return '0'
    const match = tails[at] == null ? null : WITH_TAIL.exec(cell)
    return match && plainTail(match[2]!) === tails[at] ? match[1]! : cell
  }
  if (tails.some((tail) => tail !== null))
    shape.rows = shape.rows.map((row) => row.map((cell, at) => numberOf(cell, at)))
  return numberOf
}

const shown = (unit: string) => (unit === 'C' || unit === 'F' ? `°${unit}` : unit)

const plainTail = (tail: string) => tail.replace(/\s+/g, '').toLowerCase()

/** The text after the numbers in most filled cells of a column; null where there is none. */
function tailOf(rows: readonly string[][], at: number): string | null {
  const filled = rows.slice(0, 1000).flatMap((row) => (row[at] ? [row[at]!] : []))
  const counts = new Map<string, number>()
  for (const cell of filled) {
    const tail = WITH_TAIL.exec(cell)?.[2]
    if (tail !== undefined) counts.set(plainTail(tail), (counts.get(plainTail(tail)) ?? 0) + 1)
  }
  const best = [...counts].sort((a, b) => b[1] - a[1])[0]
  return best && best[1] > filled.length * MOST ? best[0] : null
}
