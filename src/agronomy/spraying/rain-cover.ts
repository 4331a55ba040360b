import { countRain, type RainMoment, type RainPeriod } from '../weather/rain-count.ts'

type CoverEnd = 'rain before dry' | 'washed off' | 'protection over' | 'growth' | 'interval'
interface CoverLimits {
  /** Hours without rain that the deposit needs. */
  rainFastHours?: number | null
  /** Total mm of rain from which the deposit is probably no longer enough. */
  washOff?: number | null
  /** Days that the product protects. */
  protectsDays?: number | null
  /** Days until growth has left too much unprotected. */
  growthDays?: number | null
  /** Days of the interval by index or by label, the shorter. */
  intervalDays?: number | null
}
interface RainCover {
  /**
   * Hour number at which protection ends, and the limit that ends it; null where missing rain data leaves it open or no
   * limit is given.
   */
  until: number | null
  reason: CoverEnd | null
  /** False where the deciding rain may have fallen before the end of the spray. */
  certain: boolean
  /**
   * Hour numbers until which protection is certain, and from which it has certainly ended, whatever the missing rain
   * was.
   */
  sureUntil: number | null
  overBy: number | null
}

/**
 * When a spray's protection ends: the first of rain before it was dry, total rain, the days that it protects, growth,
 * and the interval. `sprayed` is the hour number of the END of the spray; rain is used up to `asOf`, and none
 * is assumed after it. The total counts, not single falls (La Vigne/Phytoma archive VI1532118402; read). A limit
 * reached means "probably no longer enough", not that all is gone. The label wins.
 * Throws a RangeError as `countRain` does.
 */
export function rainCover(
  spray: CoverLimits & { sprayed: number; asOf: number },
  periods: readonly RainPeriod[],
): RainCover {
  const rain = countRain(spray, periods)
  const unsure = rain.beforeDry && unsureBeforeDry(spray.sprayed, rain.beforeDry, periods)
  const ends = [
    unsure === null && rain.beforeDry ? { ...rain.beforeDry, reason: 'rain before dry' as const } : null,
    rain.washedOff && { ...rain.washedOff, reason: 'washed off' as const },
    afterDays(spray, spray.intervalDays, 'interval'),
    afterDays(spray, spray.protectsDays, 'protection over'),
    afterDays(spray, spray.growthDays, 'growth'),
  ].filter((end) => end !== null)
  const first = ends.toSorted((a, b) => a.at - b.at)[0]
  const washes = (spray.washOff ?? null) !== null
  const rainMatters = (spray.rainFastHours ?? null) !== null || washes
  const dryAt = spray.sprayed + (spray.rainFastHours ?? 0)
  // Once it is dry, rain matters only where it washes off.
  const matters = rain.missing.find(({ from }) => washes || from < dryAt)
  const open = rainMatters ? earlier(matters?.from ?? null, unsure) : null
  const overBy = first?.at ?? null
  if (open !== null && (overBy === null || open < overBy))
    return { until: null, reason: null, certain: false, sureUntil: open, overBy }
  const { at: until, reason, certain } = first ?? { at: null, reason: null, certain: true }
  const sureUntil = until ?? (rainMatters ? spray.asOf : null)
  return { until, reason, certain, sureUntil, overBy }
}

/** Longest period of rain, in hours, that is taken to have fallen on the wet deposit where it overlaps its drying. */
const TOLD_BY_HOURS = 6

/**
 * The end of the spray, where only a long period (a day of a rain gauge) tells of rain, so that nobody knows whether it
 * came before the spray, on the wet deposit or after it was dry; null where that is known.
 */
function unsureBeforeDry(sprayed: number, { at, certain }: RainMoment, periods: readonly RainPeriod[]) {
  const period = periods.find(({ from, to }) => from <= at && at < to)
  return !certain && period !== undefined && period.to - period.from > TOLD_BY_HOURS ? sprayed : null
}

const earlier = (a: number | null, b: number | null) => (a === null || (b !== null && b < a) ? b : a)

function afterDays({ sprayed }: { sprayed: number }, days: number | null | undefined, reason: CoverEnd) {
  return days === null || days === undefined ? null : { at: sprayed + days * 24, certain: true, reason }
}
