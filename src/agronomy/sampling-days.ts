/** A sample of one day: day number, mean °Brix, and the heat sum up to that day where it is known. */
export interface SugarSample {
  day: number
  brix: number
  heatSum?: number
}

const MOST_DAYS = 5

/** The last five sampling days in order, samples of one day averaged. */
export function lastSamplingDays(samples: readonly SugarSample[]): SugarSample[] {
  const days = [...new Set(samples.map((s) => s.day))].sort((a, b) => a - b).slice(-MOST_DAYS)
  return days.map((day) => {
    const same = samples.filter((s) => s.day === day)
    const heatSum = same.find((s) => s.heatSum !== undefined)?.heatSum
    return { day, brix: same.reduce((sum, s) => sum + s.brix, 0) / same.length, heatSum }
  })
}
