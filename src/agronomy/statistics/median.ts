/** The median of a list of figures; null where it is empty. */
export function median(values: readonly number[]): number | null {
  const sorted = values.toSorted((a, b) => a - b)
  const middle = Math.floor(sorted.length / 2)
  if (sorted.length === 0) return null
  return sorted.length % 2 === 1 ? sorted[middle]! : (sorted[middle - 1]! + sorted[middle]!) / 2
}

/** Whether a figure is so far from the usual that a decimal point or a zero may be wrong: 8 times or an eighth. */
export function slipped(value: number, usual: number): boolean {
  return value > 0 && usual > 0 && (value >= usual * 8 || value <= usual / 8)
}

/** The medians of a list with one of its values left out, each without sorting again. */
export function mediansWithoutOne(values: readonly number[]): (left: number) => number | null {
  const sorted = [...values].sort((a, b) => a - b)
  return (left) => {
    const count = sorted.length - 1
    if (count < 1) return null
    const at = (index: number) => sorted[sorted[index]! < left ? index : index + 1]!
    const middle = count >> 1
    return count % 2 ? at(middle) : (at(middle - 1) + at(middle)) / 2
  }
}
