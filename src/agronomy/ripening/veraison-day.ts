/** From 5 to 95 % of berries coloured in a block, days. Common practice, no source; 7 to 21 is usual. */
const colouringDays = 14

/** Half-width of a 90 % interval of a date that was noted on a weekly round, days. Common practice, no source. */
const notedWithin = 3

/**
 * Day of 50 % colour from what was noted: the share of coloured berries is taken as a logistic curve that runs
 * from 5 to 95 % in `colouringDays`. Half of the shift is added to the uncertainty, since that span is a guess.
 * With no share noted the day itself is taken, give or take half the span.
 *
 * @param options day as a day number; share of coloured berries, 0 to 1, exclusive, where it was noted
 * @returns the day of 50 % colour (may be a fraction) and the half-width of its 90 % interval in days
 * @throws RangeError when the share is not within 0 and 1
 */
export function veraisonDay(options: { day: number; share?: number }): { day: number; within: number } {
  const { day, share } = options
  if (share === undefined) return { day, within: Math.hypot(notedWithin, colouringDays / 2) }
  if (!(share > 0 && share < 1)) throw new RangeError('veraisonDay requires a share between 0 and 1')
  const shift = (-Math.log(share / (1 - share)) * colouringDays) / (2 * Math.log(19))
  return { day: day + shift, within: notedWithin + Math.abs(shift) / 2 }
}
