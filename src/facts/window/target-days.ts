import { chanceCurve, dayOfShare, type Season } from '../../agronomy/ripening/chance-curve.ts'
import { worthOfSample } from '../../agronomy/ripening/next-sample.ts'
import { type IsoDate, isoDate } from '../../records/date.ts'
import { onDemand } from '../on-demand.ts'

/** Days ahead for which a chance is reported. Own choice, no source. */
export const HORIZON = 60
/** Fewest days from one sample to the next, and most days from today to the next. Own choice, no source. */
const NEXT = { least: 3, most: 7 }
/** Days to decide, between the next sample and the earliest day. Own choice, no source. */
const TO_DECIDE = 2

/**
 * When a season reaches a target, as day numbers: 5, 50 and 95 % of the chance; null after the horizon. `shift` is the
 * standard error of a correction added to all readings.
 */
export function targetDays(
  season: Season,
  { target, today, shift = 0 }: { target: number; today: number; shift?: number },
) {
  const curve = chanceCurve(season, {
    target,
    until: today + HORIZON,
    shift: season.prior.shared ** 2 + shift ** 2,
  })
  return onDemand({
    curve: () => curve,
    earliest: () => dayOfShare(curve, 0.05),
    likely: () => dayOfShare(curve, 0.5),
    latest: () => dayOfShare(curve, 0.95),
    /** Chance that the target is reached on the day of the report. */
    today: () => {
      const at = today - curve.from
      return at >= 0 && at < curve.length ? curve.on(at) : 0
    },
  })
}

export type TargetDays = ReturnType<typeof targetDays>

export const dateOf = (day: number | null | undefined): IsoDate | null => (day == null ? null : isoDate(day))

/**
 * The next sample: within a week, in time to decide before the earliest day, and not too soon after the last; how many
 * berries, and by how many days they narrow the window.
 */
export function nextSample(season: Season, { earliest, likely, latest }: TargetDays, today: number) {
  const last = season.readings.at(-1)!
  // Veraison may still be ahead, and a sample before it says little.
  const soonest = Math.max(today, last.day + (last.sampled ? NEXT.least : 0))
  const inTime = earliest === null ? today + NEXT.most : earliest - TO_DECIDE
  const day = Math.max(soonest, Math.min(today + NEXT.most, inTime))
  const end = today + HORIZON
  const width = (latest ?? end) - (earliest ?? end)
  const { berries, narrowsDays } = worthOfSample(season, { day, likely: likely ?? end, width })
  return { date: isoDate(day), berries, narrows_days: Math.round(10 * narrowsDays) / 10 }
}
