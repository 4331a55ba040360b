import { lowest } from '../../agronomy/statistics/extremes.ts'
import { latitudesOf } from '../../records/clock.ts'
import { instantOf } from '../../records/zone.ts'
import { PRACTICE, type Rule } from '../rule.ts'
import { slipsOf, type Usual } from './usual.ts'

/**
 * Largest difference between any country's clock and its longitude's time, in hours; in Europe it is under half of
 * this.
 */
const FARTHEST_HOURS = 3.5
const FARTHEST_IN_EUROPE = 1.9

/** Hours that a zone is ahead of UTC in its winter, north or south. */
function standardOffset(zone: string): number {
  const offsets = ['2026-01-01', '2026-07-01'].map((date) => Date.parse(date) - instantOf(date, 0, zone))
  return lowest(offsets) / 3_600_000
}

/** A site whose figures contradict each other. */
export const unlikelySite: Rule = {
  name: 'unlikely-site',
  what: "Vines are not grown at this latitude, or the position doesn't fit the time zone. Or the copper limits contradict each other, or the harvest figures are far from usual.",
  limits:
    'Usual are: latitude 20 to 62; longitude within 3.5 hours of the time zone, 1.9 in Europe; picking at 8 to 200 kg/h; a crate of 2 to 500 kg; a bucket of 2 to 40 kg; juice of 400 to 850 L/t.',
  ...PRACTICE,
  check({ ledger: { vineyard } }) {
    const { latitude, longitude, timezone } = vineyard
    const slips = slipsOf(vineyard)
    const zone = latitudesOf(timezone)
    if (zone && (latitude < zone.low || latitude > zone.high))
      slips.odd(
        ['latitude'],
        `latitude ${latitude} is not in the time zone ${timezone}`,
        'latitude and longitude may be swapped, or the sign of the latitude wrong (south is negative); else correct the time zone',
      )
    else slips.unusual(['latitude'], Math.abs(latitude), 'latitude for vines', [20, 62])
    const farthest = timezone.startsWith('Europe/') ? FARTHEST_IN_EUROPE : FARTHEST_HOURS
    const hoursOff = longitude === undefined ? 0 : Math.abs(longitude / 15 - standardOffset(timezone))
    // Across the date line, 23 hours apart is 1.
    if (Math.min(hoursOff, 24 - hoursOff) > farthest)
      slips.odd(
        ['longitude'],
        `longitude ${longitude} is far from the time zone ${timezone}`,
        'check its sign (west is negative), and whether latitude and longitude are swapped; else correct the time zone',
      )
    const { per_season, rolling, years } = vineyard.limits?.copper ?? {}
    if (per_season !== undefined && rolling !== undefined && per_season > rolling)
      slips.odd(
        ['limits', 'copper', 'per_season'],
        `${per_season} kg/ha of copper a season is more than ${rolling} kg/ha over years`,
        'the limit over years must be the larger: check which is which, and their units',
      )
    if (rolling !== undefined && years === undefined)
      slips.odd(
        ['limits', 'copper', 'rolling'],
        'a limit over years without `years`',
        'write over how many years it runs: `years: 7`',
      )
    slips.compare(USUAL)
    return slips.found
  },
}

const USUAL: Usual = {
  'limits.copper.per_season': ['copper limit for a season', 0.5, 12, 'kg/ha'],
  'limits.copper.rolling': ['copper limit over years', 2, 60, 'kg/ha'],
  'limits.wind': ['wind limit', 2, 9, 'm/s'],
  'harvest.picking': ['picking rate', 8, 200, 'kg/h'],
  'harvest.crate': ['crate', 2, 500, 'kg'],
  'harvest.bucket': ['bucket', 2, 40, 'kg'],
  'harvest.juice': ['yield of juice', 400, 850, 'L/t'],
}
