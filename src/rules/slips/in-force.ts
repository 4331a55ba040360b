import type { Book } from '../../facts/book.ts'
import type { SprayEntry } from '../../ledger/read/ledger.ts'
import { seasonOf } from '../../ledger/read/seasons.ts'
import type { IsoDate } from '../../records/date.ts'

/** Whether a calibration held on the day of a spray. What one gave before it was measured so, nobody knows. */
export const wasInForce = (
  calibrated: IsoDate | undefined,
  { ledger, asOf }: Book,
  { date, season }: SprayEntry,
): boolean => (calibrated === undefined ? season === seasonOf(ledger.vineyard, asOf) : calibrated <= date)
