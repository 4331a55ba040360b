/** The defaults with what was given put over them; an option left undefined keeps its default. */
export function withDefaults<T extends object>(defaults: T, given: Partial<T>): T {
  const result = { ...defaults }
  for (const key of Object.keys(defaults) as (keyof T)[]) {
    const value = given[key]
    if (value !== undefined) result[key] = value
  }
  return result
}
