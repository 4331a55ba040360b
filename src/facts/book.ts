import type { Ledger } from '../ledger/read/ledger.ts'
import type { IsoDate } from '../records/date.ts'

/** What a rule judges: the ledger as read, on a day, for the entries of some seasons. */
export interface Book {
  ledger: Ledger
  asOf: IsoDate
  /** Seasons whose entries may get findings; entries of others are only looked back on. */
  seasons: ReadonlySet<number>
  /** Highest °C by day number that a forecast names, for days that no station has measured. */
  heatAhead?: ReadonlyMap<number, number> | undefined
}
