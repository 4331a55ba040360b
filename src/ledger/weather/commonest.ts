/** Values and how often each stands there, the commonest first. */
export function commonest<T>(values: Iterable<T>): [value: T, count: number][] {
  const counts = new Map<T, number>()
  for (const value of values) counts.set(value, (counts.get(value) ?? 0) + 1)
  return [...counts].sort((a, b) => b[1] - a[1])
}
