/**
 * The highest of numbers, however many: `Math.max` over a spread passes each as an argument and ends where the stack does.
 * -Infinity of none.
 */
export function highest(values: Iterable<number>): number {
  let most = -Infinity
  for (const value of values) most = Math.max(most, value)
  return most
}

/** The lowest of numbers, however many; Infinity of none. */
export function lowest(values: Iterable<number>): number {
  let least = Infinity
  for (const value of values) least = Math.min(least, value)
  return least
}
