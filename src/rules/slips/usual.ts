import { figureText } from '../../facts/sentences.ts'
import type { Path, Placed } from '../../ledger/read/source.ts'
import type { Vineyard } from '../../records/kinds/vineyard.ts'
import { type Found, findingAt } from '../rule.ts'

/** The usual range of a figure, and its unit. */
type Range = readonly [low: number, high: number, unit?: string | undefined]

/** Figures of a record by their paths (`canopy.height`): what each is called, and its usual range. */
export type Usual = Readonly<Record<string, readonly [what: string, ...usual: Range]>>

/** Whether a figure lies in its usual range. */
export const isUsual = (value: number, [low, high]: Range): boolean => value >= low && value <= high

/** What to check where a date lies out of season. */
export const SWAPPED = 'check the date; day and month may be swapped'

/** Collects likely mistakes in one record. */
export interface Slips {
  found: Found[]
  /** Reports each figure of a table, or each of a list of figures, outside its usual range; in the part of the record. */
  compare(figures: Usual, part?: Path): void
  /** Reports a figure outside its usual range; a missing one (undefined) is fine. */
  unusual(path: Path, value: number | undefined, what: string, usual: Range): void
  /** Reports figures or words that don't fit together, and what to check. */
  odd(path: Path, message: string, help: string): void
}

/** Starts collecting likely mistakes in a record. */
export function slipsOf(record: Placed<object>): Slips {
  const found: Found[] = []
  const odd = (path: Path, message: string, help: string) =>
    found.push(findingAt(record, path, { message, help }))
  const unusual: Slips['unusual'] = (path, value, what, usual) => {
    if (value === undefined || isUsual(value, usual)) return
    const [low, high, unit] = usual
    odd(
      path,
      `${figureText(value, unit)} is an unlikely ${what}; usual: ${figureText(low)} to ${figureText(high, unit)}`,
      'check the figure, its decimal point and its unit',
    )
  }
  return {
    found,
    odd,
    unusual,
    compare(figures, part = []) {
      for (const [name, [what, ...usual]] of Object.entries(figures)) {
        const path = [...part, ...name.split('.')]
        const value = path.reduce<unknown>(
          (at, key) => (at as Record<string, unknown> | undefined)?.[key],
          record,
        )
        if (!Array.isArray(value)) unusual(path, value as number | undefined, what, usual)
        else for (const [index, one] of value.entries()) unusual([...path, index], one, what, usual)
      }
    },
  }
}

/** The likely mistakes in each of several records. */
export const slipsIn = <R extends Placed<object>>(
  records: Iterable<R>,
  look: (slips: Slips, record: R) => void,
): Found[] =>
  [...records].flatMap((record) => {
    const slips = slipsOf(record)
    look(slips, record)
    return slips.found
  })

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

/** Whether a date lies outside the first to the last month given, as counted in the north. */
export function outOfSeason(site: Pick<Vineyard, 'latitude'>, date: string, [first, last]: Range): boolean {
  const month = northernMonth(site, date)
  return month !== null && (month < first || month > last)
}
