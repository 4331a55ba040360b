import { seeded } from '../agronomy/seeded.ts'
import { asker, BASELINES, type Known } from './ask.ts'
import { FAMILIES } from './families.ts'
import { type Answer, type Scored, type Summary, scoreOf, summaryOf } from './score.ts'
import { drawBlock, type SimulatedBlock } from './season.ts'

/** When a window is asked for: so many days before the day, or so many °Brix short of the target. */
export const DISTANCES = {
  '28 days': (block: SimulatedBlock) => block.truth - 28,
  '21 days': (block: SimulatedBlock) => block.truth - 21,
  '14 days': (block: SimulatedBlock) => block.truth - 14,
  '7 days': (block: SimulatedBlock) => block.truth - 7,
  '4 Brix': (block: SimulatedBlock) => shortBy(block, 4),
  '2 Brix': (block: SimulatedBlock) => shortBy(block, 2),
  '1 Brix': (block: SimulatedBlock) => shortBy(block, 1),
}
export type Distance = keyof typeof DISTANCES
export const LEADS: readonly Distance[] = ['28 days', '21 days', '14 days', '7 days']

const shortBy = ({ season, target }: SimulatedBlock, brix: number) =>
  season.course.findIndex((level) => level >= target - brix)

/** Ways of answering, by what is known. */
export const WAYS: Record<string, Known> = {
  samples: {},
  'berries not written': { berriesWritten: false },
  '+ flowering': { flowering: true },
  '+ veraison': { veraison: true },
  '+ weather': { weather: true },
  '+ weather, forecast': { weather: true, forecast: true },
  '+ past seasons': { past: true },
  'all of them': { flowering: true, veraison: true, weather: true, past: true },
}

/** What was scored: by way of answering, family of curves and distance. */
export interface Outcome {
  way: string
  family: string
  keptOut: boolean
  distance: Distance
  scored: Scored
}

/** Asks so many seasons of each family, in each way, at each distance; baselines too where wanted. */
export function simulate(of: {
  seasons: number
  seed: number
  ways?: readonly string[]
  distances?: readonly Distance[]
  baselines?: boolean
}): Outcome[] {
  const outcomes: Outcome[] = []
  const { ways = Object.keys(WAYS), distances = Object.keys(DISTANCES) as Distance[] } = of
  for (const [index, family] of FAMILIES.entries()) {
    const random = seeded(1000 * of.seed + index)
    for (let n = 0; n < of.seasons; n++) {
      const block = drawBlock(family, random, 3)
      const answers: [string, (today: number) => Answer][] = [
        ...ways.map((way): (typeof answers)[number] => [way, asker(block, WAYS[way]!)]),
        ...Object.entries(of.baselines ? BASELINES : {}).map(([way, baseline]): (typeof answers)[number] => [
          way,
          (today) => baseline(block, today),
        ]),
      ]
      for (const distance of distances) {
        const asOf = DISTANCES[distance](block)
        for (const [way, answer] of answers) {
          const scored = scoreOf(answer(asOf), { truth: block.truth, asOf })
          outcomes.push({ way, family: family.name, keptOut: family.keptOut, distance, scored })
        }
      }
    }
  }
  return outcomes
}

/** The summary of some of the outcomes. */
export function over(
  outcomes: readonly Outcome[],
  of: { way?: string; family?: string; distances?: readonly Distance[] },
): Summary {
  return summaryOf(
    outcomes
      .filter(({ way }) => of.way === undefined || way === of.way)
      .filter(({ family }) => of.family === undefined || family === of.family)
      .filter(({ distance }) => of.distances === undefined || of.distances.includes(distance))
      .map(({ scored }) => scored),
  )
}
