import { type Lesson, learn, lessonOf } from '../../agronomy/ripening/past-seasons.ts'
import { believe } from '../../agronomy/ripening/ripening-model.ts'
import { type RipeningPrior, SUGAR } from '../../agronomy/ripening/ripening-prior.ts'
import { NO_WARMTH } from '../../agronomy/ripening/warmth.ts'
import type { Ledger, Named } from '../../ledger/read/ledger.ts'
import type { Block } from '../../records/block.ts'
import { type BlockSample, samplesOf } from '../ripeness/samples.ts'
import { sugarReadings } from './readings.ts'

/** Sampling days that a past season needs to teach anything. Own choice, no source. */
const LEAST_DAYS = 3
/** Past seasons that are looked at, newest first: of the block, and of other blocks of its variety. Own choice, no source. */
const MOST = { own: 6, variety: 6 }

/** The prior of a block after its past seasons, or where it has none after those of its variety; and which they are. */
export interface Learned {
  prior: RipeningPrior
  own: number[]
  variety: number[]
}

/** What past seasons teach of how this block ripens. */
export function learnedOf(ledger: Ledger, block: Named<Block>, season: number): Learned {
  const own = lessonsOf(ledger, [block], { season, most: MOST.own })
  const like = [...ledger.blocks.values()].filter(
    (other) => other.id !== block.id && other.variety === block.variety,
  )
  const variety = own.length > 0 ? [] : lessonsOf(ledger, like, { season, most: MOST.variety })
  const of = (found: typeof own) => found.map(({ lesson }) => lesson)
  return {
    prior: learn(SUGAR, { own: of(own), variety: of(variety) }),
    own: own.map((one) => one.season),
    variety: variety.map((one) => one.season),
  }
}

function lessonsOf(
  ledger: Ledger,
  blocks: readonly Named<Block>[],
  { season, most }: { season: number; most: number },
): { season: number; lesson: Lesson }[] {
  const earlier = [...new Set(ledger.samples.map((sample) => sample.season))]
    .filter((one) => one < season)
    .sort((a, b) => b - a)
  const found: { season: number; lesson: Lesson }[] = []
  for (const one of earlier)
    for (const { id } of blocks) {
      if (found.length === most) return found
      const samples = samplesOf(ledger, { block: id, season: one, asOf: '9999-12-31' })
      const lesson = lessonOfSeason(samples)
      if (lesson) found.push({ season: one, lesson })
    }
  return found
}

function lessonOfSeason(samples: readonly BlockSample[]): Lesson | null {
  const readings = sugarReadings(samples, { halfColour: null })
  if (new Set(readings.map(({ day }) => day)).size < LEAST_DAYS) return null
  return lessonOf(believe(readings, SUGAR, NO_WARMTH), SUGAR)
}
