import type { IsoDate } from '../../records/date.ts'

/** A figure measured on some days, each with its interval. */
export interface CoursePoint {
  date: IsoDate
  value: number
  /** Ends of the 95 % interval; null where one can't be given. */
  low: number | null
  high: number | null
}

export interface CoursePanel {
  name: string
  unit: string
  points: CoursePoint[]
  /** What is wanted. */
  target?: { low: number; high: number } | undefined
  /** What should not be passed, or is to be reached; `limitName` says which, else it is a threshold. */
  limit?: number | undefined
  limitName?: string | undefined
  /** What was fitted to the points, or is foreseen, with its spread. */
  trend?: { name: string; points: CoursePoint[] } | undefined
  /** What is calculated for every day, from 0 to 100 %, drawn as a line. */
  curve?: CoursePoint[] | undefined
  /** A straight course through the points, by its ends. */
  line?: { from: { date: IsoDate; value: number }; to: { date: IsoDate; value: number } } | undefined
}

/** Figures that were measured now and then, one panel for each above one common time. */
export interface CourseChart {
  title: string
  from: IsoDate
  to: IsoDate
  panels: CoursePanel[]
  /** When something is expected, with its spread. */
  window?: { name: string; earliest: IsoDate; likely: IsoDate; latest: IsoDate } | undefined
  marks?: { date: IsoDate; label: string }[]
}
