import type { State } from './kalman-filter.ts'

/** One step of a filter that has run: a reading taken in, or a day carried on, with the state before it. */
export type Step =
  | { kind: 'reading'; surprise: number; spread: number; before: State }
  | { kind: 'day'; pace: number; slowing: number; memory: number; before: State }

/**
 * Mean and variance of the level before each step, given all readings, those that came after it too.
 *
 * The backward recursions for r and N of Durbin & Koopman 2012, section 4.4 (Time Series Analysis by State Space
 * Methods, 2nd ed.), one step at a time: a reading has r = Z'v / F + L'r, N = Z'Z / F + L'NL with L = I - KZ, a day r =
 * T'r, N = T'NT; then the level is a + Pr and its variance P - PNP.
 */
export function smoothedLevels(steps: readonly Step[]): { mean: number; variance: number }[] {
  let r1 = 0
  let r2 = 0
  let r3 = 0
  let n11 = 0
  let n12 = 0
  let n13 = 0
  let n22 = 0
  let n23 = 0
  let n33 = 0
  const levels: { mean: number; variance: number }[] = []
  for (const step of steps.toReversed()) {
    const { level, levelLevel: p1, levelSwing: p2, levelRate: p3 } = step.before
    if (step.kind === 'reading') {
      const { surprise, spread } = step
      const k1 = p1 / spread
      const k2 = p2 / spread
      const k3 = p3 / spread
      const u1 = n11 * k1 + n12 * k2 + n13 * k3
      const u2 = n12 * k1 + n22 * k2 + n23 * k3
      const u3 = n13 * k1 + n23 * k2 + n33 * k3
      r1 += surprise / spread - (k1 * r1 + k2 * r2 + k3 * r3)
      n11 += 1 / spread - 2 * u1 + (k1 * u1 + k2 * u2 + k3 * u3)
      n12 -= u2
      n13 -= u3
    } else {
      const { pace, slowing, memory } = step
      const kept = 1 - pace * slowing
      r2 = pace * r1 + memory * r2
      r3 = pace * r1 + r3
      r1 *= kept
      // Each uses the others' values before the day, so the last comes first.
      const passed = pace * pace * n11
      n33 = passed + 2 * pace * n13 + n33
      n23 = passed + pace * n13 + pace * memory * n12 + memory * n23
      n22 = passed + 2 * pace * memory * n12 + memory * memory * n22
      n13 = kept * (pace * n11 + n13)
      n12 = kept * (pace * n11 + memory * n12)
      n11 *= kept * kept
    }
    const shrunk =
      p1 * (n11 * p1 + n12 * p2 + n13 * p3) +
      p2 * (n12 * p1 + n22 * p2 + n23 * p3) +
      p3 * (n13 * p1 + n23 * p2 + n33 * p3)
    levels.push({ mean: level + p1 * r1 + p2 * r2 + p3 * r3, variance: Math.max(0, p1 - shrunk) })
  }
  return levels.reverse()
}
