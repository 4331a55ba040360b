/**
 * The highest of any number of values, where `Math.max` with all of them as arguments would overflow the stack.
 * -Infinity where there are none.
 */
export function highest(values: Iterable<number>): number {
  let most = -Infinity
  for (const value of values) most = Math.max(most, value)
  return most
}

/** The lowest of any number of values; Infinity where there are none. */
export function lowest(values: Iterable<number>): number {
  let least = Infinity
  for (const value of values) least = Math.min(least, value)
  return least
}
