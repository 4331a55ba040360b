import { figureText } from '../../facts/sentences.ts'
import type { Path, Placed } from '../../ledger/read/source.ts'
import type { Vineyard } from '../../records/kinds/vineyard.ts'
import { type Found, findingAt } from '../rule.ts'

/** The usual range of a figure, and its unit. */
type Range = readonly [low: number, high: number, unit?: string]

/** Whether a figure lies in its usual range. */
export const isUsual = (value: number, [low, high]: Range): boolean => value >= low && value <= high

/** Collects likely mistakes in one record, figure by figure. */
export interface Slips {
  found: Found[]
  /** Reports a figure outside its usual range; a missing one (undefined) is fine. */
  unusual(path: Path, value: number | undefined, what: string, usual: Range): void
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
    unusual(path, value, what, usual) {
      if (value === undefined || isUsual(value, usual)) return
      const [low, high, unit = ''] = usual
      warn(
        path,
        `${figureText(value, unit)} is an unlikely ${what}; usual: ${figureText(low)} to ${figureText(high, unit)}`,
        'check the figure, its decimal point and its unit',
      )
    },
    odd: warn,
  }
}

/** Latitude below which vines may bear at any time of the year. */
const TROPICS = 25

/**
 * The month of a date, 1 to 12, as a grower in the north would count it: July is 7 in the north and January is
 * 7 in the south. null near the equator, where the month says nothing about the vine.
 */
export function northernMonth({ latitude }: Pick<Vineyard, 'latitude'>, date: string): number | null {
  if (Math.abs(latitude) < TROPICS) return null
  const month = Number(date.slice(5, 7))
  return latitude < 0 ? ((month + 5) % 12) + 1 : month
}

/** Whether a date lies outside the months given, as counted in the north. */
export function outOfSeason(
  site: Pick<Vineyard, 'latitude'>,
  date: string,
  { first, last }: { first: number; last: number },
): boolean {
  const month = northernMonth(site, date)
  return month !== null && (month < first || month > last)
}
