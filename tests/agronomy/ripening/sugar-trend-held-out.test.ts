import { expect, test } from 'vitest'
import { sugarTrend } from '../../../src/agronomy/ripening/sugar-trend.ts'
import { gaussian, seeded } from '../seeded.ts'

/**
 * Curves that the trend's constants were not set by (those are in sugar-trend-simulation.test.ts), to see what the 90 %
 * interval is worth when a season does not keep to them. The figures are printed and only loosely bound: do not set
 * constants by them.
 */
const TARGET = 20
const SEASONS = 120

/** °Brix so many days from the day on which the mean reaches the target. */
type Curve = (x: number) => number

const FAMILIES: Record<string, (random: () => number) => Curve> = {
  gompertz: (random) => {
    const [base, top, pace] = [3 + random(), 21.5 + 3 * random(), 0.05 + 0.05 * random()]
    const at = -Math.log(-Math.log((TARGET - base) / (top - base))) / pace
    return (x) => base + (top - base) * Math.exp(-Math.exp(-pace * (at + x)))
  },
  monomolecular: (random) => {
    const [top, pace] = [21.5 + 4 * random(), 0.025 + 0.035 * random()]
    return (x) => top - (top - TARGET) * Math.exp(-pace * x)
  },
  'broken line': (random) => {
    const [rate, share, broken] = [0.22 + 0.18 * random(), 0.3 + 0.4 * random(), -21 * random()]
    return (x) => TARGET + rate * (x > broken ? share * x : x - broken + share * broken)
  },
  'standstill of a week': (random) => {
    const [rate, from] = [0.15 + 0.15 * random(), -28 * random()]
    const stood = (x: number): number => Math.min(7, Math.max(0, x - from))
    return (x) => TARGET + rate * (x - stood(x) + stood(0))
  },
  'waves of weather': (random) => {
    const [rate, turn, wave] = [
      0.14 + 0.14 * random(),
      2 * Math.PI * random(),
      (2 * Math.PI) / (10 + 10 * random()),
    ]
    const swing = (0.5 * rate) / wave
    return (x) => TARGET + rate * x + swing * (Math.sin(wave * x + turn) - Math.sin(turn))
  },
}

function outcome(curve: Curve, noise: number, random: () => number) {
  const samples = [-42, -35, -28, -21, -14].map((x) => ({
    day: 100 + x,
    brix: Math.max(2, curve(x) + noise * gaussian(random)),
  }))
  const { earliest, latest } = sugarTrend(samples)(TARGET)
  if (earliest === null || latest === null) return { held: false, width: null }
  const [first, last] = [Math.ceil(earliest), Math.ceil(latest)]
  return { held: first <= 100 && 100 <= last, width: last - first }
}

for (const [at, [name, family]] of Object.entries(FAMILIES).entries()) {
  test(`${name}: weekly samples, 14 days before`, () => {
    const cells = [0.2, 0.35, 0.55].map((noise, index) => {
      const random = seeded(9000 + 10 * at + index)
      const all = Array.from({ length: SEASONS }, () => outcome(family(random), noise, random))
      const widths = all.flatMap(({ width }) => width ?? []).sort((a, b) => a - b)
      return {
        noise,
        held: all.filter(({ held }) => held).length / SEASONS,
        width: widths[widths.length >> 1]!,
      }
    })
    const said = cells.map((c) => `${(100 * c.held).toFixed(0)} % in ${c.width} d at noise ${c.noise}`)
    console.log(`sugar-trend, held-out ${name}: ${said.join('; ')}`)
    expect(cells.reduce((sum, { held }) => sum + held, 0) / cells.length).toBeGreaterThan(0.7)
    for (const { width } of cells) expect(width).toBeLessThan(26)
  })
}
