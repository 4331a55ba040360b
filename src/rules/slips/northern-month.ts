import type { Vineyard } from '../../records/vineyard.ts'

/** Latitude below which vines may bear at any time of the year. */
const TROPICS = 25

/**
 * The month of a date, 1 to 12, as a grower in the north would count it: July is 7 in the north and January is
 * 7 in the south. null near the equator, where the month says nothing about the vine.
 */
export function northernMonth({ latitude }: Pick<Vineyard, 'latitude'>, date: string): number | null {
  if (Math.abs(latitude) < TROPICS) return null
  const month = Number(date.slice(5, 7))
  return latitude < 0 ? ((month + 5) % 12) + 1 : month
}

/** Whether a date lies outside the months given, as counted in the north. */
export function outOfSeason(
  site: Pick<Vineyard, 'latitude'>,
  date: string,
  { first, last }: { first: number; last: number },
): boolean {
  const month = northernMonth(site, date)
  return month !== null && (month < first || month > last)
}
