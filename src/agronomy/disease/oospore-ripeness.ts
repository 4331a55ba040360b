/** °C, and °C-days above it from which spores are ripe; source below. */
const BASE = 8
export const RIPE_ABOVE = 170

/**
 * Ripeness of downy mildew's oospores: the sum of daily means over 8 °C, never less than 0 a day, ripe above 170.
 * Give the days from 1 January (in the southern hemisphere from 1 July, our reading). A missing day adds nothing,
 * so that the spores may be ripe sooner, and is counted; `ripe` is null where it isn't reached and days are missing.
 * Source: French-Swiss advice text (read: 170, base 8 °C); 160-170 from memory of Agroscope.
 */
export function oosporeRipeness(days: readonly { day: number; mean: number | null }[]) {
  let sum = 0
  let missingDays = 0
  return days.map(({ day, mean }) => {
    if (mean === null) missingDays++
    else sum += Math.max(0, mean - BASE)
    const ripe = sum > RIPE_ABOVE || (missingDays > 0 ? null : false)
    return { day, sum, ripe, missingDays }
  })
}
