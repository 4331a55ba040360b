import {
  type ChanceCurve,
  chanceCurve,
  coursesAhead,
  dayOfShare,
  type Season,
} from '../../agronomy/ripening/chance-curve.ts'
import { worthOfSample } from '../../agronomy/ripening/next-sample.ts'
import { believe, type Reading } from '../../agronomy/ripening/ripening-model.ts'
import type { RipeningPrior } from '../../agronomy/ripening/ripening-prior.ts'
import type { Warmth } from '../../agronomy/ripening/warmth.ts'
import { atFirstUse } from '../../records/fields/field.ts'

/** Days ahead for which a chance is reported. Own choice, no source. */
export const HORIZON = 60
/** Fewest days from one sample to the next, and most days from today to the next. Own choice, no source. */
const NEXT = { least: 3, most: 7 }
/** Days to decide, between the next sample and the earliest day. Own choice, no source. */
const TO_DECIDE = 2
/** Chance from which the target counts as reached, and no more samples are suggested. */
export const REACHED = 0.95

/**
 * When sugar reaches a target, as day numbers: 5, 50 and 95 % of the chance; null after the horizon. Each
 * is calculated on demand, since most reports need one of them.
 */
export interface SugarWindow {
  curve: ChanceCurve
  earliest: number | null
  likely: number | null
  latest: number | null
  /** Chance that the target is reached on the day of the report. */
  today: number
  /** Current rate, °Brix a day: the mean of the posterior. */
  rate: number
  next: { day: number; berries: number; narrowsDays: number } | null
}

/**
 * The window for a target from one season's readings. `shift` is the standard error of a correction added to all
 * readings.
 */
export function sugarWindow(
  readings: readonly Reading[],
  of: { prior: RipeningPrior; warmth: Warmth; target: number; today: number; shift: number },
): SugarWindow {
  const { prior, warmth, target, today } = of
  const season: Season = { readings, believed: believe(readings, prior, warmth), prior, warmth }
  const courses = coursesAhead(season, today + HORIZON)
  const curve = chanceCurve(season, courses, { target, shift: prior.shared ** 2 + of.shift ** 2 })
  const on = (share: number) => atFirstUse(() => dayOfShare(curve, share))
  const [earliest, likely, latest] = [on(0.05), on(0.5), on(0.95)]
  const rate = season.believed.reduce(
    (sum, { share, slowing, state }) => sum + share * (state.rate - slowing * state.level + state.swing),
    0,
  )
  return {
    curve,
    get earliest() {
      return earliest()
    },
    get likely() {
      return likely()
    },
    get latest() {
      return latest()
    },
    get today() {
      const at = today - curve.from
      return at >= 0 && at < curve.length ? curve.on(at) : 0
    },
    rate,
    get next() {
      return this.today >= REACHED ? null : nextSample(season, this, today)
    },
  }
}

/** The next sample: within a week, in time to decide before the earliest day, and not too soon after the last. */
function nextSample(
  season: Season,
  { earliest, likely, latest }: Pick<SugarWindow, 'earliest' | 'likely' | 'latest'>,
  today: number,
): SugarWindow['next'] {
  const last = season.readings.at(-1)!
  // Veraison may still be ahead, and a sample before it says little.
  const soonest = Math.max(today, last.day + (last.sampled ? NEXT.least : 0))
  const inTime = earliest === null ? today + NEXT.most : earliest - TO_DECIDE
  const day = Math.max(soonest, Math.min(today + NEXT.most, inTime))
  const end = today + HORIZON
  const width = (latest ?? end) - (earliest ?? end)
  return { day, ...worthOfSample(season, { day, likely: likely ?? end, width }) }
}
