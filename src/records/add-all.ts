/** Adds to a list one by one: many thousands, spread over one call, would overflow the stack. */
export function addAll<T>(list: T[], more: Iterable<T>): void {
  for (const one of more) list.push(one)
}
