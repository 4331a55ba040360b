import { expect, test } from 'vitest'
import { sugarTrend } from '../../../src/agronomy/ripening/sugar-trend.ts'
import { gaussian, seeded } from '../seeded.ts'

/** Days before the true crossing on which the last weekly sample is taken. */
const LEAD = 14
const TARGET = 20

interface Season {
  brixAt: (day: number) => number
  crossing: number
}
type Shape = (random: () => number) => Season

/** Rates of the brief: 0.2-0.4 °Brix a day at first, 0.08-0.2 at the crossing, `span` days later. */
function rates(random: () => number): { first: number; last: number } {
  const last = 0.08 + 0.12 * random()
  return { first: Math.max(last + 0.02, 0.2 + 0.2 * random()), last }
}

function exponential(span: number): Shape {
  return (random) => {
    const { first, last } = rates(random)
    const k = Math.log(first / last) / span
    return {
      brixAt: (day) => TARGET - (first * (Math.exp(-k * day) - Math.exp(-k * span))) / k,
      crossing: span,
    }
  }
}

function sigmoid(low: number, high: number, pace: number): Shape {
  return (random) => {
    const [bottom, top, scale] = [low + random(), high + 2 * random(), pace + 4 * random()]
    return {
      brixAt: (day) => bottom + (top - bottom) / (1 + Math.exp(-(day - 35) / scale)),
      crossing: 35 + scale * Math.log((TARGET - bottom) / (top - TARGET)),
    }
  }
}

const SHAPES: Record<string, Shape> = {
  straight: (random) => {
    const rate = 0.12 + 0.18 * random()
    return { brixAt: (day) => TARGET + rate * (day - 45), crossing: 45 }
  },
  'slowing over 45 days': exponential(45),
  'slowing over 35 days': exponential(35),
  'rate falling in a line': (random) => {
    const { first, last } = rates(random)
    const brixAt = (day: number): number =>
      TARGET + first * (day - 45) + ((last - first) * (day ** 2 - 45 ** 2)) / 90
    return { brixAt, crossing: 45 }
  },
  'sigmoid, top 21.5-23.5': sigmoid(4, 21.5, 9),
  'sigmoid, top 23-25': sigmoid(3, 23, 11),
}

function inside(season: Season, noise: number, random: () => number): boolean {
  const last = season.crossing - LEAD
  const samples = [28, 21, 14, 7, 0].map((back) => ({
    day: last - back,
    brix: season.brixAt(last - back) + noise * gaussian(random),
  }))
  const { earliest, latest } = sugarTrend(samples)(TARGET)
  // Whole days, as the window gives them.
  if (earliest === null || latest === null) return false
  const first = Math.ceil(season.crossing)
  return Math.ceil(earliest) <= first && first <= Math.ceil(latest)
}

function coverage(shape: Shape, noise: number, seasons: number, seed: number): number {
  const random = seeded(seed)
  let held = 0
  for (let i = 0; i < seasons; i++) if (inside(shape(random), noise, random)) held++
  return held / seasons
}

test('500 seeded seasons of mixed shapes and noise: the 90 % interval holds 85 to 95 %', () => {
  const random = seeded(20261125)
  const shapes = Object.values(SHAPES)
  let held = 0
  for (let i = 0; i < 500; i++) {
    const season = shapes[i % shapes.length]!(random)
    if (inside(season, 0.3 + 0.3 * random(), random)) held++
  }
  console.log(`sugar-trend, 500 mixed seasons, 14 days before: ${held / 5} % held`)
  expect(held / 500).toBeGreaterThanOrEqual(0.85)
  expect(held / 500).toBeLessThanOrEqual(0.95)
})

// Each shape on its own: noise of 0.3 is quieter than what the trend expects of samples, and 0.6 is louder, so
// that single shapes stray further from 90 % than the mixture does.
for (const [name, shape] of Object.entries(SHAPES)) {
  test(`${name}: coverage by noise stays between 80 and 100 %`, () => {
    const found = [0.3, 0.45, 0.6].map((noise, i) => coverage(shape, noise, 200, 100 + i))
    console.log(`sugar-trend, ${name}: ${found.map((c) => `${(100 * c).toFixed(1)} %`).join(', ')} held`)
    for (const share of found) expect(share).toBeGreaterThanOrEqual(0.8)
    expect(found[1]).toBeGreaterThanOrEqual(0.85)
  })
}
