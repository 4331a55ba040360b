/** A sample of one day: day number, mean °Brix, and the heat sum up to that day where it is known. */
export interface SugarSample {
  day: number
  brix: number
  heatSum?: number
  /** Standard deviation between the sample's readings, and how many there are. */
  readings?: { sd: number; n: number }
}

/** Sampling days that always count, and the days before the last one within which all count. */
const LAST_DAYS = 5
const LAST_WEEKS = 28

/** The last five sampling days in order, or all of the last four weeks where those are more; a day's samples averaged. */
export function lastSamplingDays(samples: readonly SugarSample[]): SugarSample[] {
  const all = [...new Set(samples.map((s) => s.day))].sort((a, b) => a - b)
  const last = all.at(-1) ?? 0
  const days = all.filter((day, at) => at >= all.length - LAST_DAYS || last - day <= LAST_WEEKS)
  return days.map((day) => {
    const same = samples.filter((s) => s.day === day)
    const heatSum = same.find((s) => s.heatSum !== undefined)?.heatSum
    const readings = same.length === 1 ? same[0]!.readings : undefined
    const brix = same.reduce((sum, s) => sum + s.brix, 0) / same.length
    return { day, brix, ...(heatSum === undefined ? {} : { heatSum }), ...(readings ? { readings } : {}) }
  })
}
