import { say } from '../../facts/say.ts'
import type { Path, Placed } from '../../ledger/read/source.ts'
import { type Found, findingAt } from '../rule.ts'

/** The span in which a figure is commonly found. */
interface Usual {
  low: number
  high: number
  unit?: string
  what: string
}

/** What is likely a slip in one record, told figure by figure. */
export interface Slips {
  found: Found[]
  /** A figure outside what is commonly found; one that isn't written (undefined) is no slip. */
  unusual(path: Path, value: number | undefined, usual: Usual): void
  /** Figures or words that don't go together, and what to look at. */
  odd(path: Path, message: string, help: string): void
}

/** Gathers the slips of a record. */
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
