import { say } from '../../facts/say.ts'
import type { Finding } from '../../ledger/read/finding.ts'
import type { Path, Placed } from '../../ledger/read/source.ts'
import { findingAt } from '../rule.ts'

/** A figure of a record with the span in which it is commonly found. */
export interface Usual {
  path: Path
  /** undefined where it isn't written. */
  value: number | undefined
  low: number
  high: number
  unit?: string
  what: string
}

/** Figures outside what is commonly found: likely slips. */
export function unusual(name: string, record: Placed<object>, figures: readonly Usual[]): Finding[] {
  return figures.flatMap(({ path, value, low, high, unit = '', what }) => {
    if (value === undefined || (value >= low && value <= high)) return []
    return [
      findingAt(record, path, {
        name,
        level: 'warning',
        message: `${say(value, unit)} is an unlikely ${what}; common is ${say(low)} to ${say(high, unit)}`,
        help: 'check the figure, its point and its unit',
      }),
    ]
  })
}

/** A finding of the same kind that is about two figures together. */
export function odd(name: string, record: Placed<object>, path: Path, message: string): Finding {
  return findingAt(record, path, { name, level: 'warning', message, help: 'check both figures' })
}
