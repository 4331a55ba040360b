/** A span of days, both ends included. */
export interface DaySpan {
  earliest: number
  latest: number
}

/**
 * Days from the day on which a BBCH stage was seen to full bloom (65), earliest and latest; negative where bloom
 * is over. Budburst to bloom 40 to 80 days and fruit set to veraison 40 to 50 days: annual cycle of grapevines as
 * given by general references (read); the stages between: common practice, no source.
 */
const TO_BLOOM: readonly (readonly [stage: number, earliest: number, latest: number])[] = [
  [0, 45, 110],
  [5, 40, 90],
  [7, 35, 80],
  [11, 30, 65],
  [13, 30, 55],
  [15, 21, 45],
  [17, 14, 35],
  [19, 10, 30],
  [53, 14, 40],
  [55, 7, 26],
  [57, 1, 20],
  [60, 2, 10],
  [61, 1, 8],
  [63, 0, 5],
  [65, -3, 3],
  [67, -6, 0],
  [69, -12, -3],
  [71, -21, -6],
  [73, -30, -11],
  [75, -42, -16],
  [77, -58, -25],
  [79, -72, -30],
  [81, -100, -45],
  [83, -110, -48],
  [85, -125, -55],
  [89, -150, -65],
]

/** Days after bloom within which bunches close and veraison comes. Common practice, no source, but for veraison as above. */
export const AFTER_BLOOM = {
  closure: { earliest: 28, latest: 45 },
  veraison: { earliest: 45, latest: 75 },
} as const

/** The day numbers between which full bloom fell or will fall, by a stage seen on a day. */
export function bloomBy(stage: number, day: number): DaySpan {
  const row = TO_BLOOM.findLast(([from]) => from <= stage) ?? TO_BLOOM[0]!
  return { earliest: day + row[1], latest: day + row[2] }
}

/**
 * The day of 50 % veraison by the days between which full bloom fell: the middle of the span from bloom to veraison, and
 * half its width in days, which is taken to hold nine times in ten.
 */
export function veraisonAfter({ earliest, latest }: DaySpan): { day: number; within: number } {
  const { veraison } = AFTER_BLOOM
  const day = (earliest + latest + veraison.earliest + veraison.latest) / 2
  const within = Math.hypot((latest - earliest) / 2, (veraison.latest - veraison.earliest) / 2)
  return { day, within }
}

const SINCE_THREE_LEAVES = [
  [13, 0],
  [15, 6],
  [17, 12],
  [19, 18],
  [53, 6],
  [55, 14],
  [57, 20],
  [60, 25],
  [71, 35],
  [75, 45],
  [81, 75],
] as const

/** Fewest days that shoots take from three leaves (13) to a stage. Common practice, no source. */
export function daysSinceThreeLeaves(stage: number): number {
  return SINCE_THREE_LEAVES.findLast(([from]) => from <= stage)?.[1] ?? 0
}

/**
 * The days of the year between which full bloom usually falls, by latitude, as month and day for the north; the
 * south is half a year later. Common practice, no source.
 */
export function usualBloom(latitude: number): {
  from: readonly [number, number]
  to: readonly [number, number]
} {
  const away = Math.abs(latitude)
  if (away >= 47) return { from: [6, 1], to: [7, 5] }
  return away >= 40 ? { from: [5, 20], to: [6, 25] } : { from: [5, 1], to: [6, 10] }
}
