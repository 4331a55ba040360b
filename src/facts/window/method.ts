import { type IsoDate, isoDate } from '../../records/date.ts'

export type MethodName = 'sugar-trend' | 'heat-sum' | 'days-after-veraison'

/** One method's answer as day numbers; nulls where `why` says what is missing. Earliest and latest end a 90 % interval. */
export interface MethodDays {
  method: MethodName
  earliest: number | null
  likely: number | null
  latest: number | null
  why: string
}

/** The same in dates, as the JSON contract has it. */
export interface MethodDates {
  method: MethodName
  earliest: IsoDate | null
  likely: IsoDate | null
  latest: IsoDate | null
  why: string
}

/** What a method is asked: when this block reaches the target, as known on a day. */
export interface Question {
  block: string
  season: number
  asOf: IsoDate
  /** Brix */
  target: number
}

export const unable = (method: MethodName, why: string): MethodDays => ({
  ...{ method, earliest: null, likely: null, latest: null },
  why,
})

const dateOf = (day: number | null): IsoDate | null => (day === null ? null : isoDate(day))

export const inDates = <T extends { earliest: number | null; likely: number | null; latest: number | null }>(
  days: T,
) => ({
  ...days,
  earliest: dateOf(days.earliest),
  likely: dateOf(days.likely),
  latest: dateOf(days.latest),
})
