import { atFirstUse } from '../records/fields/field.ts'

/** An object whose values are calculated when they are read, each once: most readers need one or two of many. */
export function onDemand<T extends object>(makers: { [Key in keyof T]: () => T[Key] }): T {
  const made = {} as T
  for (const key in makers)
    Object.defineProperty(made, key, { get: atFirstUse(makers[key]), enumerable: true })
  return made
}
