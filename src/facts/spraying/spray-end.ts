import { addDays, type IsoDate } from '../../records/date.ts'
import type { Spray } from '../../records/kinds/spray.ts'

/** Minutes after midnight of the spray's date at which it ended: as written, else the end of the day. */
export function endMinutes(spray: Pick<Spray, 'time'>): number {
  return spray.time?.end ?? 1440
}

/**
 * The first days on which picking is allowed after a spray, by the two readings in use: `calendar` counts the day
 * of spraying as day 0; `cautious` waits full days from the end of spraying, and so names the first morning
 * after them. Reports use the cautious one.
 */
export function earliestPick(
  spray: Pick<Spray, 'date' | 'time'>,
  days: number,
): { calendar: IsoDate; cautious: IsoDate } {
  const whole = Math.ceil(days)
  const daysOver = Math.ceil(days + endMinutes(spray) / 1440)
  return { calendar: addDays(spray.date, whole), cautious: addDays(spray.date, daysOver) }
}

/** The last day on which a spray of unknown hour still allows picking on a date, by the cautious reading. */
export function latestSpray(pick: IsoDate, days: number): IsoDate {
  return addDays(pick, -Math.ceil(days + 1))
}
