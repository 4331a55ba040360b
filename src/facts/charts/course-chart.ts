import type { IsoDate } from '../../records/date.ts'

/** A figure measured on some days, each with its interval. */
export interface CoursePoint {
  date: IsoDate
  value: number
  /** Ends of the 95 % interval; null where there is none. */
  low: number | null
  high: number | null
}

export interface CoursePanel {
  name: string
  unit: string
  points: CoursePoint[]
  /** The range to aim for. */
  target?: { low: number; high: number } | undefined
  /** A threshold. */
  limit?: number
  /** A fit or forecast through the points, with its spread. */
  trend?: { name: string; points: CoursePoint[] } | undefined
  /** A value for every day, 0 to 100 %, drawn as a line. */
  curve?: CoursePoint[] | undefined
}

/** A day that stands out in every panel. */
interface CourseMark {
  date: IsoDate
  label: string
  /** True for what was done on the day, such as a spray; else the day bounds what may be done. */
  done?: boolean
}

/** Figures measured now and then: one panel each, above a common time axis. */
export interface CourseChart {
  title: string
  from: IsoDate
  to: IsoDate
  panels: CoursePanel[]
  /** When something is expected, with its spread. */
  window?: { name: string; earliest: IsoDate; likely: IsoDate; latest: IsoDate } | undefined
  marks?: CourseMark[]
}
