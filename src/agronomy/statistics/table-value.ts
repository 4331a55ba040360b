/** Rows of a printed table, [argument, value], in rising order of the argument. */
export type TableRows = readonly (readonly [number, number])[]
/** How a value between two rows is taken: on the straight line, or the smaller of the two rows. */
export type BetweenRows = 'linear' | 'smaller'

/** The table's value at `x`; null outside the first and the last row, for a table is never extrapolated. */
export function tableValue(rows: TableRows, x: number, between: BetweenRows = 'linear'): number | null {
  for (let at = 0; at < rows.length; at++) {
    const [right, rightValue] = rows[at]!
    // Unit conversion must not push a limit off its own row.
    if (Math.abs(x - right) <= 1e-9) return rightValue
    if (x > right) continue
    if (at === 0) return null
    const [left, leftValue] = rows[at - 1]!
    if (between === 'smaller') return Math.min(leftValue, rightValue)
    return leftValue + ((rightValue - leftValue) * (x - left)) / (right - left)
  }
  return null
}
