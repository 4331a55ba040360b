import { seasonOf } from '../../agronomy/ripening/chance-curve.ts'
import { ACID, PH } from '../../agronomy/ripening/ripening-prior.ts'
import type { Warmth } from '../../agronomy/ripening/warmth.ts'
import type { Ledger, Named } from '../../ledger/read/ledger.ts'
import { atFirstUse } from '../../records/fields/field.ts'
import type { Block } from '../../records/kinds/block.ts'
import { onDemand } from '../on-demand.ts'
import type { BlockSample } from '../ripeness/samples.ts'
import { targetOf } from '../ripeness/targets.ts'
import { acidReadings } from './readings.ts'
import { dateOf, targetDays } from './target-days.ts'

/** Fewest days with measurements. */
const LEAST_DAYS = 3

export type AcidWindow = NonNullable<ReturnType<typeof acidWindow>>

/**
 * When acid falls, or pH rises, into the target range; null where no range is written, or it was measured on fewer than
 * three days.
 */
export function acidWindow(
  ledger: Ledger,
  block: Named<Block>,
  given: { of: 'ta' | 'ph'; samples: readonly BlockSample[]; warmth: Warmth; today: number },
) {
  const { of, samples, warmth, today } = given
  const range = targetOf(ledger, block, of)
  if (!range) return null
  const prior = of === 'ta' ? ACID : PH
  const readings = acidReadings(samples, of, prior.within)
  if (new Set(readings.map(({ day }) => day)).size < LEAST_DAYS) return null
  const target = of === 'ta' ? range.high : range.low
  const last = samples.findLast(({ facts }) => facts[of])!.facts[of]!.mean
  const level = of === 'ta' ? -Math.log(target) : target
  const days = atFirstUse(() => targetDays(seasonOf(readings, prior, warmth), { target: level, today }))
  return onDemand({
    /** g/L of acid, or pH, to reach. */
    target: () => target,
    /** 5, 50 and 95 % of the chance. */
    earliest: () => dateOf(days().earliest),
    likely: () => dateOf(days().likely),
    latest: () => dateOf(days().latest),
    /** The range may not be reached by the end of the horizon. */
    open: () => days().latest === null,
    /** Whether the last measured value is already in range; needs no model. */
    reached: () => (of === 'ta' ? last <= target : last >= target),
  })
}
