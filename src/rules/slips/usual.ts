import { say } from '../../facts/say.ts'
import type { Path, Placed } from '../../ledger/read/source.ts'
import { type Found, findingAt } from '../rule.ts'

/** The usual range of a figure. */
interface Usual {
  low: number
  high: number
  unit?: string
  what: string
}

/** Collects likely mistakes in one record, figure by figure. */
export interface Slips {
  found: Found[]
  /** Reports a figure outside its usual range; a missing one (undefined) is fine. */
  unusual(path: Path, value: number | undefined, usual: Usual): void
  /** Reports figures or words that don't fit together, and what to check. */
  odd(path: Path, message: string, help: string): void
}

/** Starts collecting likely mistakes in a record. */
export function slipsOf(record: Placed<object>): Slips {
  const found: Found[] = []
  const warn = (path: Path, message: string, help: string) =>
    found.push(findingAt(record, path, { message, help }))
  return {
    found,
    unusual(path, value, { low, high, unit = '', what }) {
      if (value === undefined || (value >= low && value <= high)) return
      warn(
        path,
        `${say(value, unit)} is an unlikely ${what}; usual: ${say(low)} to ${say(high, unit)}`,
        'check the figure, its decimal point and its unit',
      )
    },
    odd: warn,
  }
}
