import { type Lesson, learn, lessonOf } from '../../agronomy/ripening/past-seasons.ts'
import { believe } from '../../agronomy/ripening/ripening-model.ts'
import { type RipeningPrior, SUGAR } from '../../agronomy/ripening/ripening-prior.ts'
import { NO_WARMTH } from '../../agronomy/ripening/warmth.ts'
import type { Ledger, Named } from '../../ledger/read/ledger.ts'
import { dayOf, type IsoDate, isoDate } from '../../records/date.ts'
import type { Block } from '../../records/kinds/block.ts'
import { type BlockSample, brixByDay, samplesOf } from '../ripeness/samples.ts'
import { sugarReadings } from './readings.ts'
import { halfColourOf } from './veraison.ts'

/** Fewest sampling days for a past season to be used. Own choice, no source. */
const LEAST_DAYS = 3
/** Most past seasons used, newest first: of the block, and of other blocks of its variety. Own choice, no source. */
const MOST = { own: 6, variety: 6 }

/** The block's prior, updated by its past seasons, or else by its variety's; and which seasons these are. */
export interface Learned {
  prior: RipeningPrior
  own: number[]
  variety: number[]
}

/** Updates the ripening model's prior for this block from past seasons. */
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

/** Key dates of one earlier season of a block. */
export interface PastDates {
  season: number
  /** 50 % veraison; null where it was not noted. */
  veraison: IsoDate | null
  /** Day on which samples and press passed the target, in hindsight; null where they never did. */
  reached: IsoDate | null
  /** First pick. */
  picked: IsoDate | null
}

/** The dates of a block's earlier seasons, newest first; seasons with none are left out. */
export function pastDates(
  ledger: Ledger,
  { block, season, target }: { block: string; season: number; target: number },
): PastDates[] {
  const records = [...ledger.samples, ...ledger.stages, ...ledger.picks].filter(
    (entry) => entry.block === block && entry.season < season,
  )
  const seasons = [...new Set(records.map((entry) => entry.season))].sort((a, b) => b - a)
  return seasons.flatMap((one) => {
    const of = { block, season: one }
    const coloured = halfColourOf(ledger, { ...of, asOf: '9999-12-31' })
    const day = dayReached(ledger, { ...of, target })
    const veraison = coloured && isoDate(Math.round(coloured.day))
    const reached = day === null ? null : isoDate(Math.ceil(day))
    const picks = ledger.picks.filter((pick) => pick.block === block && pick.season === one)
    const picked = picks.map(({ date }) => date).sort()[0] ?? null
    return veraison || reached || picked ? [{ season: one, veraison, reached, picked }] : []
  })
}

/**
 * The day, with its fraction, on which a season's samples and press passed a target for good, interpolated
 * between the two readings around it; null where they never did.
 */
export function dayReached(
  ledger: Ledger,
  { block, season, target }: { block: string; season: number; target: number },
): number | null {
  const pressed = ledger.picks
    .filter((pick) => pick.block === block && pick.season === season && pick.brix !== undefined)
    .map((pick) => ({ date: pick.date, brix: pick.brix! }))
  const sampled = brixByDay(samplesOf(ledger, { block, season, asOf: '9999-12-31' }))
  const days = new Map([...pressed, ...sampled].map(({ date, brix }) => [dayOf(date), brix]))
  const course = [...days].sort(([a], [b]) => a - b)
  const at = course.findLastIndex(([, brix]) => brix < target)
  const [before, after] = [course[at], course[at + 1]]
  if (!before || !after) return null
  return before[0] + ((target - before[1]) / (after[1] - before[1])) * (after[0] - before[0])
}
