import { rainCover } from '../../agronomy/spraying/rain-cover.ts'
import { lowest } from '../../agronomy/statistics/extremes.ts'
import type { RainPeriod } from '../../agronomy/weather/rain-count.ts'
import { dayOf, type IsoDate, isoDate } from '../../records/date.ts'
import type { Disease } from '../../records/disease.ts'
import { isUnmeasuredSpot } from '../block-size.ts'
import type { NotedStage } from '../danger/growth.ts'
import type { Application } from '../spraying/applications.ts'
import { endMinutes } from '../spraying/spray-end.ts'
import { actionLimits } from './acts.ts'
import { growthDays, intervalDays } from './limits.ts'
import { periodsBetween } from './periods.ts'

/** The protection that one product of one spray gives a block against a disease. */
export type SprayCover = ReturnType<typeof sprayCover>

export interface CoverFrom {
  disease: Disease
  stages: readonly NotedStage[]
  periods: readonly RainPeriod[]
  /** Hour number up to which rain data is needed. */
  rainUntil: number
  /** The powdery index of a day number; null where unknown. */
  indexOn: (day: number) => number | null
  /** Whether a day number lies in the critical period of fruit, or in high danger. */
  isGrave: (day: number) => boolean
}

/** Noon decides a day: unprotected where protection ends before noon, protected where it lasts past it. */
const lastCoveredDay = (hour: number) => Math.ceil((hour - 12) / 24) - 1

/** The protection of one application, and what ends it. */
export function sprayCover(application: Application, from: CoverFrom) {
  const { spray, product, share } = application
  const sprayed = dayOf(spray.date) * 24 + endMinutes(spray) / 60
  const interval = intervalDays(product, from.disease, {
    sprayed: dayOf(spray.date),
    indexOn: from.indexOn,
    isGrave: from.isGrave,
  })
  const action = actionLimits(product, from.disease)
  const days = {
    protectsDays: action.protectsDays,
    growthDays: action.systemic ? null : growthDays(from.stages, dayOf(spray.date)),
    intervalDays: interval.days,
  }
  // Rain after the interval has ended changes nothing.
  const longest = lowest(Object.values(days).map((one) => one ?? Infinity))
  const asOf = Math.max(sprayed, Math.min(from.rainUntil, sprayed + longest * 24))
  const cover = rainCover(
    {
      sprayed,
      asOf,
      rainFastHours: action.rainFastHours,
      washOff: action.washOff,
      ...days,
    },
    periodsBetween(from.periods, sprayed, asOf),
  )
  const day = (hour: number | null) => {
    const last = hour === null ? null : lastCoveredDay(hour)
    return last === null ? null : isoDate(last)
  }
  return {
    date: spray.date,
    product: product.id,
    /** Rows that were treated, where the entry names them. */
    rows: spray.rows ? { from: spray.rows.low, to: spray.rows.high } : null,
    /** Share of the block that was treated, 0 to 1; null where unknown; 0 for a spot spray of unknown extent. */
    share: share === null && isUnmeasuredSpot(spray) ? 0 : share,
    /** Whether it keeps off new infections, or only acts on existing disease; null where unknown. */
    lasting: action.lasting,
    /** Last protected day; null where missing rain data leaves it open. */
    until: day(cover.until),
    /** What ends the protection. */
    reason: cover.reason,
    certain: cover.certain,
    /** Last day that is certainly protected, and the last that can be. */
    sureUntil: day(cover.sureUntil),
    atMost: day(cover.overBy),
    /** First day on which the interval table advised against this class of product; null where there was none. */
    notAdvised: notAdvisedOn(spray.date, interval.notAdvised, day(cover.overBy)),
    /** Hour number of the end of the spray. */
    sprayed,
  }
}

/** The day, where it comes before the end of the protection. */
function notAdvisedOn(sprayed: IsoDate, after: number | null, end: IsoDate | null): IsoDate | null {
  const date = after === null ? null : isoDate(dayOf(sprayed) + after)
  return date !== null && (end === null || date <= end) ? date : null
}
