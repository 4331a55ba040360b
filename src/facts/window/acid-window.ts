import {
  type ChanceCurve,
  chanceCurve,
  coursesAhead,
  dayOfShare,
  type Season,
} from '../../agronomy/ripening/chance-curve.ts'
import { believe } from '../../agronomy/ripening/ripening-model.ts'
import { ACID, PH } from '../../agronomy/ripening/ripening-prior.ts'
import type { Warmth } from '../../agronomy/ripening/warmth.ts'
import type { Ledger, Named } from '../../ledger/read/ledger.ts'
import { type IsoDate, isoDate } from '../../records/date.ts'
import type { Block } from '../../records/kinds/block.ts'
import type { BlockSample } from '../ripeness/samples.ts'
import { targetOf } from '../ripeness/targets.ts'
import { acidReadings } from './readings.ts'

/** When acid falls, or pH rises, into the target range: 5, 50 and 95 % of the chance. */
export interface AcidWindow {
  /** g/L of acid, or pH, to reach. */
  target: number
  earliest: IsoDate | null
  likely: IsoDate | null
  latest: IsoDate | null
  /** The range may not be reached by the end of the horizon. */
  open: boolean
  /** Whether the last measured value is already in range. */
  reached: boolean
}

/** Fewest days with measurements. */
const LEAST_DAYS = 3

/**
 * When acid or pH comes into its range; null where no range is written, or it was measured on fewer than three days.
 */
export function acidWindow(
  ledger: Ledger,
  block: Named<Block>,
  given: { of: 'ta' | 'ph'; samples: readonly BlockSample[]; warmth: Warmth; until: number },
): AcidWindow | null {
  const { of, samples, warmth, until } = given
  const range = targetOf(ledger, block, of)
  if (!range) return null
  const prior = of === 'ta' ? ACID : PH
  const readings = acidReadings(samples, of, prior.within)
  if (new Set(readings.map(({ day }) => day)).size < LEAST_DAYS) return null
  const target = of === 'ta' ? range.high : range.low
  const last = samples.findLast(({ facts }) => facts[of])!.facts[of]!.mean
  let curve: ChanceCurve | undefined
  const at = (share: number) => {
    curve ??= curveOf({ readings, believed: believe(readings, prior, warmth), prior, warmth })
    const day = dayOfShare(curve, share)
    return day === null ? null : isoDate(day)
  }
  const curveOf = (season: Season) =>
    chanceCurve(season, coursesAhead(season, until), {
      target: of === 'ta' ? -Math.log(target) : target,
      shift: prior.shared ** 2,
    })
  // Whether it is reached already needs no model.
  return {
    target,
    get earliest() {
      return at(0.05)
    },
    get likely() {
      return at(0.5)
    },
    get latest() {
      return at(0.95)
    },
    get open() {
      return at(0.95) === null
    },
    reached: of === 'ta' ? last <= target : last >= target,
  }
}
