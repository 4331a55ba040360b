/** The middle of a list of figures, or null of an empty one. */
export function median(values: readonly number[]): number | null {
  const sorted = values.toSorted((a, b) => a - b)
  const middle = Math.floor(sorted.length / 2)
  if (sorted.length === 0) return null
  return sorted.length % 2 === 1 ? sorted[middle]! : (sorted[middle - 1]! + sorted[middle]!) / 2
}

/** Whether a figure is so far from the usual that a point or a nought may have slipped: 8 times or an eighth. */
export function slipped(value: number, usual: number): boolean {
  return value > 0 && usual > 0 && (value >= usual * 8 || value <= usual / 8)
}
