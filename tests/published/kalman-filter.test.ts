import { describe, expect, test } from 'vitest'
import { predict, type State, update } from '../../src/agronomy/ripening/kalman-filter.ts'
import { type Step, smoothedLevels } from '../../src/agronomy/ripening/smoother.ts'

/**
 * Annual flow of the Nile at Aswan, 1871 to 1970, 10⁸ m³: the example of Durbin & Koopman 2012, Time Series Analysis by
 * State Space Methods, 2nd ed., chapter 2 (from Cobb 1978, Biometrika 65:243-251).
 */
const NILE = [
  1120, 1160, 963, 1210, 1160, 1160, 813, 1230, 1370, 1140, 995, 935, 1110, 994, 1020, 960, 1180, 799, 958,
  1140, 1100, 1210, 1150, 1250, 1260, 1220, 1030, 1100, 774, 840, 874, 694, 940, 833, 701, 916, 692, 1020,
  1050, 969, 831, 726, 456, 824, 702, 1120, 1100, 832, 764, 821, 768, 845, 864, 862, 698, 845, 744, 796, 1040,
  759, 781, 865, 845, 944, 984, 897, 822, 1010, 771, 676, 649, 846, 812, 742, 801, 1040, 860, 874, 848, 890,
  744, 749, 838, 1050, 918, 986, 797, 923, 975, 815, 1020, 906, 901, 1170, 912, 746, 919, 718, 714, 740,
]
/** Their maximum likelihood estimates (section 2.10.3): variance of the reading and of the level's step. */
const READING = 15099
const STEP = 1469.1

/** The local level model: a swing without memory is the step of the level, and there is no rate. */
const start = (): State => ({
  ...{ level: NILE[0]!, swing: 0, rate: 0, levelLevel: READING, levelSwing: 0, levelRate: 0 },
  ...{ swingSwing: STEP, swingRate: 0, rateRate: 0 },
})
const year = { slowing: 0, memory: 0, swingNoise: STEP }

describe('the Nile by the local level model, from a diffuse start', () => {
  test('the first steps are a weighted mean of level and reading (section 2.2)', () => {
    const state = start()
    predict(state, 1, year)
    expect(state.levelLevel).toBeCloseTo(16568.1, 6)
    const spread = 16568.1 + READING
    const weight = 16568.1 / spread
    const density = update(state, NILE[1]!, READING)
    expect(state.level).toBeCloseTo(1120 + weight * 40, 9)
    expect(state.levelLevel).toBeCloseTo(16568.1 * (1 - weight), 6)
    expect(density).toBeCloseTo(-0.5 * (Math.log(2 * Math.PI * spread) + 1600 / spread), 9)
  })

  test('the likelihood is that of table 2.1, and the variance comes to its steady state (section 2.11)', () => {
    const state = start()
    let logLikelihood = 0
    for (const flow of NILE.slice(1)) {
      predict(state, 1, year)
      logLikelihood += update(state, flow, READING)
    }
    // Table 2.1 leaves out (n - 1) (ln 2 pi + 1) / 2 and prints -492.07 at the maximum (from memory).
    expect(logLikelihood + (99 / 2) * (Math.log(2 * Math.PI) + 1)).toBeCloseTo(-492.07, 1)
    predict(state, 1, year)
    const q = STEP / READING
    expect(state.levelLevel).toBeCloseTo((READING * (q + Math.sqrt(q ** 2 + 4 * q))) / 2, 4)
  })
})

/** Draws of the whole state are one normal vector: its covariance written out, and all readings taken in at once. */
describe('against the joint normal distribution', () => {
  const days = 9
  const step = { slowing: 0.03, memory: 0.9, swingNoise: 0.004 }
  const paces = [1, 1.2, 0.8, 1, 1, 0.6, 1.3, 1, 1]
  const readings = new Map([
    [2, { value: 9.4, variance: 0.2 }],
    [5, { value: 10.9, variance: 0.1 }],
    [9, { value: 11.6, variance: 0.3 }],
  ])
  const begun = (): State => ({
    ...{ level: 8.5, swing: 0, rate: 0.7, levelLevel: 1.5, levelSwing: 0, levelRate: 0 },
    ...{ swingSwing: 0.02, swingRate: 0, rateRate: 0.003 },
  })
  /** Levels as sums of independent normal sources: level, swing, rate at the start, and a swing's noise of each day. */
  const sources = [1.5, 0.02, 0.003, ...Array<number>(days).fill(step.swingNoise)]
  const byHand = () => {
    let level = [1, 0, 0, ...Array<number>(days).fill(0)]
    let swing = [0, 1, 0, ...Array<number>(days).fill(0)]
    const rate = [0, 0, 1, ...Array<number>(days).fill(0)]
    let mean = 8.5
    const levels = [{ mean, parts: level }]
    for (let day = 0; day < days; day++) {
      const pace = paces[day]!
      level = level.map((part, at) => (1 - pace * step.slowing) * part + pace * (rate[at]! + swing[at]!))
      swing = swing.map((part, at) => step.memory * part + (at === 3 + day ? 1 : 0))
      mean = (1 - pace * step.slowing) * mean + pace * 0.7
      levels.push({ mean, parts: level })
    }
    return levels
  }
  const covariance = (a: readonly number[], b: readonly number[]) =>
    sources.reduce((sum, variance, at) => sum + variance * a[at]! * b[at]!, 0)

  /** Mean and variance of a level given all readings, and the log density of these, one reading after another by regression. */
  const given = (day: number) => {
    const levels = byHand()
    const list = [...readings].map(([at, reading]) => ({ ...reading, ...levels[at]! }))
    const n = list.length
    const matrix = list.map((a, i) =>
      list.map((b, j) => covariance(a.parts, b.parts) + (i === j ? a.variance : 0)),
    )
    const solve = (right: readonly number[]) => gauss(matrix, right)
    const off = list.map(({ value, mean }) => value - mean)
    const to = list.map(({ parts }) => covariance(parts, levels[day]!.parts))
    const dot = (a: readonly number[], b: readonly number[]) => a.reduce((sum, x, at) => sum + x * b[at]!, 0)
    const { determinant } = solve(off)
    return {
      mean: levels[day]!.mean + dot(to, solve(off).x),
      variance: covariance(levels[day]!.parts, levels[day]!.parts) - dot(to, solve(to).x),
      logDensity: -0.5 * (n * Math.log(2 * Math.PI) + Math.log(determinant) + dot(off, solve(off).x)),
    }
  }

  test('filter, likelihood and smoother give the same numbers', () => {
    const state = begun()
    const steps: Step[] = []
    let logDensity = 0
    for (let day = 0; day <= days; day++) {
      const reading = readings.get(day)
      if (reading) {
        const surprise = reading.value - state.level
        steps.push({
          ...{ kind: 'reading', surprise, spread: state.levelLevel + reading.variance },
          before: { ...state },
        })
        logDensity += update(state, reading.value, reading.variance)
      }
      if (day === days) break
      steps.push({
        ...{ kind: 'day', pace: paces[day]!, slowing: step.slowing, memory: step.memory },
        before: { ...state },
      })
      predict(state, paces[day]!, step)
    }
    expect(state.level).toBeCloseTo(given(days).mean, 9)
    expect(state.levelLevel).toBeCloseTo(given(days).variance, 9)
    expect(logDensity).toBeCloseTo(given(days).logDensity, 9)
    const smoothed = smoothedLevels(steps)
    const perDay = smoothed.filter((_, at) => steps[at]!.kind === 'day')
    perDay.forEach(({ mean, variance }, day) => {
      expect(mean).toBeCloseTo(given(day).mean, 9)
      expect(variance).toBeCloseTo(given(day).variance, 9)
    })
  })
})

function gauss(matrix: readonly (readonly number[])[], right: readonly number[]) {
  const rows = matrix.map((row, at) => [...row, right[at]!])
  let determinant = 1
  for (let at = 0; at < rows.length; at++) {
    determinant *= rows[at]![at]!
    for (let below = 0; below < rows.length; below++) {
      if (below === at) continue
      const factor = rows[below]![at]! / rows[at]![at]!
      rows[below] = rows[below]!.map((value, column) => value - factor * rows[at]![column]!)
    }
  }
  return { x: rows.map((row, at) => row.at(-1)! / row[at]!), determinant }
}
