export interface PowderyState {
  /** 0 to 100, a multiple of 10. */
  index: number
  phase: 'start' | 'running'
}

const FAVOURABLE_HOURS = 6
const STARTED = 60

/**
 * One day of the powdery mildew temperature index.
 * A favourable day has at least 6 continuous hours in 70-85 °F. In the start phase it adds 20, and any other
 * day sets the index back to 0, until 60 is reached; heat is ignored there, which no source settles. From the
 * next day on a favourable day adds 20, or 10 when it was also hot, and any other day takes 10, hot or not.
 * Source: Gubler, Rademacher, Vasquez & Thomas 1999, APSnet Features (introduction read), by the rules that UC
 * Cooperative Extension had reprinted (Western Farm Press; read). The reset is from memory.
 */
export function powderyStep(before: PowderyState, day: { hoursInRange: number; hot: boolean }): PowderyState {
  const favourable = day.hoursInRange >= FAVOURABLE_HOURS
  if (before.phase === 'start') {
    const index = favourable ? before.index + 20 : 0
    return { index, phase: index >= STARTED ? 'running' : 'start' }
  }
  const points = favourable ? (day.hot ? 10 : 20) : -10
  return { index: Math.min(100, Math.max(0, before.index + points)), phase: 'running' }
}
