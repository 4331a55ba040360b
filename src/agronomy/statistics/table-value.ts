/** Rows of a printed table, [argument, value], in rising order of the argument. */
export type TableRows = readonly (readonly [number, number])[]

/** The value of a table at `x`, interpolated in a straight line; null outside the table, which is never extrapolated. */
export function tableValue(rows: TableRows, x: number): number | null {
  for (let at = 0; at < rows.length; at++) {
    const [right, rightValue] = rows[at]!
    // Unit conversion must not push a limit off its own row.
    if (Math.abs(x - right) <= 1e-9) return rightValue
    if (x > right) continue
    if (at === 0) return null
    const [left, leftValue] = rows[at - 1]!
    return leftValue + ((rightValue - leftValue) * (x - left)) / (right - left)
  }
  return null
}
