import type { Finding } from '../read/finding.ts'
import type { Measured } from './columns.ts'
import type { StationDay } from './days.ts'
import type { StationHours } from './hours.ts'

/** A station's file as read. What can't be read is unknown and reported in `findings`; nothing is thrown. */
export interface WeatherFile {
  /** Relative to the ledger, or as named; null where the season has no file. */
  file: string | null
  form: 'hourly' | 'daily' | null
  /** Rows that were read. */
  rows: number
  /** The hours that the station has; none for daily files. */
  hours: StationHours
  /** The days that it has; none for hourly files. */
  days: readonly StationDay[]
  /** What the file has a column for. */
  measured: ReadonlySet<Measured>
  findings: Finding[]
}
