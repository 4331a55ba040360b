/** Usual days between two growth stages, and beyond which a pair of dates is worth a second look. */
const stageIntervals = [
  {
    from: 'budburst',
    to: 'flowering',
    usual: [40, 80],
    plausible: [30, 100],
    source: 'published range, an encyclopedia entry on the growth cycle; widened by a quarter (own choice)',
  },
  {
    from: 'fruit set',
    to: 'veraison',
    usual: [40, 50],
    plausible: [30, 63],
    source: 'published range, a wine education site; widened by a quarter (own choice)',
  },
  {
    from: 'veraison',
    to: 'harvest',
    usual: [30, 60],
    plausible: [25, 75],
    source: 'common practice, from memory; wineries publish 40 to 50 days and about six weeks',
  },
  {
    from: 'budburst',
    to: 'harvest',
    usual: [140, 160],
    plausible: [125, 200],
    source: 'published range and extremes, a winery; a weak source',
  },
] as const

export type StageInterval = (typeof stageIntervals)[number]

/**
 * Whether the days between two stages are plausible: a reason to look again, never an error.
 *
 * @param options the names of a pair in `stageIntervals`, and the days between them
 * @returns `short`, `long`, `plausible`, or null for a pair with no published range
 */
export function stageIntervalPlausibility(options: {
  from: string
  to: string
  days: number
}): 'short' | 'long' | 'plausible' | null {
  const pair = stageIntervals.find(({ from, to }) => from === options.from && to === options.to)
  if (!pair || !Number.isFinite(options.days)) return null
  if (options.days < pair.plausible[0]) return 'short'
  return options.days > pair.plausible[1] ? 'long' : 'plausible'
}
