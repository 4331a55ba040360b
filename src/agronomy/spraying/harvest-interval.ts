import { requireNotNegative } from '../statistics/require-number.ts'

interface EarliestHarvest {
  /** Day number: the day of the application is day 0. */
  calendar: number
  /** Full days of 24 hours from the end of the spray, or from the end of its day where no time is known. */
  cautious: { day: number; hour: number }
  /** Whether the two readings name different days; then both should be shown. */
  differ: boolean
}

/**
 * Earliest harvest after a spray by the two readings in use. No regulator's text says whether the day of the
 * application counts.
 * @param spray day, a day number (days from any fixed date); days to wait before harvest; endHour, the hour
 *   of that day at which the spray ended (18.5 is 18:30), where it is known
 * @throws RangeError where day is not whole, days is negative or endHour is outside 0 to 24
 * Sources: NPIC Oregon State University 2018 (meaning of the interval); a farm-assurance standard (no end
 * time: the end of the day).
 */
export function earliestHarvest(spray: { day: number; days: number; endHour?: number }): EarliestHarvest {
  const { day, days, endHour = 24 } = spray
  if (!Number.isSafeInteger(day)) throw new RangeError(`requires a whole day number, got ${day}`)
  requireNotNegative({ 'days before harvest': days })
  if (!(endHour >= 0 && endHour <= 24)) throw new RangeError(`requires an hour from 0 to 24, got ${endHour}`)
  const hours = endHour + days * 24
  const calendar = day + Math.ceil(days)
  const cautious = { day: day + Math.floor(hours / 24), hour: hours % 24 }
  return { calendar, cautious, differ: cautious.day !== calendar }
}
