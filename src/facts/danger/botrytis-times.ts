import { AFTER_BLOOM } from '../../agronomy/heat/bloom-timing.ts'
import type { BloomSpan } from './usual-bloom.ts'

/** A growth stage that botrytis sprays are timed for, and the days around it. */
interface BotrytisTime {
  /** To follow "vines are". */
  name: string
  from: number
  to: number
  /** Whether a noted stage says so. */
  sure: boolean
  /** Whether it is bloom itself. */
  blooms: boolean
}

/**
 * The spray timings of botrytis, as bloom and the stages noted leave them open.
 * @param isRipe whether veraison was noted by now. @param noted every stage of the season.
 */
export function botrytisTimes(
  blooms: readonly BloomSpan[],
  { isRipe, noted }: { isRipe: boolean; noted: readonly { stage: number; day: number }[] },
): BotrytisTime[] {
  const times: BotrytisTime[] = []
  const add = (name: string, from: number, to: number, sure: boolean, blooms = false) =>
    times.push({ name, from, to, sure, blooms })
  for (const { earliest, latest, guess } of blooms) {
    add('in bloom', earliest - 3, latest + 10, !guess && latest - earliest <= 10, true)
    if (isRipe) continue
    const { closure, veraison } = AFTER_BLOOM
    add('at bunch closure', earliest + closure.earliest, latest + closure.latest, false)
    add('at veraison', earliest + veraison.earliest, latest + veraison.latest + 14, false)
    add('near harvest', latest + veraison.latest, Number.POSITIVE_INFINITY, false)
  }
  for (const { stage, day: at } of noted) {
    if (stage === 77 || stage === 79) add('at bunch closure', at - 5, at + 10, true)
    if (stage >= 81 && stage < 83) add('at veraison', at - 3, at + 14, true)
    if (stage >= 83) add('near harvest', at, Number.POSITIVE_INFINITY, true)
  }
  return times
}
