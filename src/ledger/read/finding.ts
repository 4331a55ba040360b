import type { NamedFault } from '../../records/fault.ts'
import type { Place } from './source.ts'

export type Level = 'error' | 'warning' | 'hint'

/** Something that is wrong, or likely so, at a place in the ledger. */
export interface Finding extends Place {
  /** Stable readable name, like `over-rate`, which `explain` takes. */
  name: string
  level: Level
  message: string
  help: string
}

/** Orders findings as a reader meets them: by file, line and column. */
export function byPlace(a: Finding, b: Finding): number {
  return compare(a.file, b.file) || a.line - b.line || a.column - b.column || compare(a.name, b.name)
}

const compare = (a: string, b: string) => (a < b ? -1 : a > b ? 1 : 0)

/** An error at a place. */
export const errorAt = (place: Place, { name, message, help }: NamedFault): Finding => ({
  ...place,
  name,
  level: 'error',
  message,
  help,
})

/** A finding about a file as a whole. */
export function aboutFile(file: string, fault: NamedFault & { level?: Level }): Finding {
  return { level: 'error', ...fault, file, line: 1, column: 1, length: 1 }
}
