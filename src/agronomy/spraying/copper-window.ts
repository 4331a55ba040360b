import { exceeds } from '../statistics/exceeds.ts'
import { requireNotNegative, requirePositive } from '../statistics/require-number.ts'

export type CopperWindow = ReturnType<typeof copperWindow>

/**
 * Copper metal on a block over several calendar years against a limit: the requested year and those before it
 * (trailing), or a fixed block of years. The regulation doesn't say which it means; trailing is by analogy
 * with the former organic rule.
 * @param question perYear in kg Cu/ha of the block's own area by calendar year; year; limit in kg/ha over
 *   `years`; blockStart, the first year of a fixed block (later blocks follow on), else trailing
 * @throws RangeError where a figure is negative, or a year or number of years is not whole
 * Sources: Implementing Regulation (EU) 2018/1981 (28 kg/ha over 7 years); Regulation (EC) 889/2008 (the year
 * in question and the four before it).
 */
export function copperWindow(question: {
  perYear: ReadonlyMap<number, number>
  year: number
  limit: number
  years: number
  blockStart?: number | undefined
}) {
  const { perYear, year, limit, years, blockStart } = question
  requirePositive({ years, limit })
  for (const whole of [year, years, blockStart ?? 0])
    if (!Number.isSafeInteger(whole)) throw new RangeError(`requires whole years, got ${whole}`)
  const from =
    blockStart === undefined ? year - years + 1 : blockStart + Math.floor((year - blockStart) / years) * years
  const known: number[] = []
  const unknown: number[] = []
  for (let each = from; each <= year; each++) (perYear.has(each) ? known : unknown).push(each)
  const each = known.map((one) => perYear.get(one)!)
  for (const [index, copper] of each.entries()) requireNotNegative({ [`copper of ${known[index]}`]: copper })
  const sum = known.length === 0 ? null : each.reduce((all, one) => all + one, 0)
  return {
    /** First and last calendar year of the window; the last is never later than the requested year. */
    from,
    to: year,
    /** kg Cu/ha over the known years, the least that it can be where years are unknown; null where none is known. */
    sum,
    known,
    /** Years of the window without a record: unknown, not zero. */
    unknown,
    /** kg Cu/ha left below the limit, 0 where there is none; the most that it can be where years are unknown. */
    room: sum === null ? null : Math.max(0, limit - sum),
    /** kg Cu/ha above the limit, 0 where there is none. */
    over: sum === null ? null : exceeds(sum, limit) ? sum - limit : 0,
  }
}
