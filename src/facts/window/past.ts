import { type Lesson, learn, lessonOf } from '../../agronomy/ripening/past-seasons.ts'
import { believe } from '../../agronomy/ripening/ripening-model.ts'
import { SUGAR } from '../../agronomy/ripening/ripening-prior.ts'
import { NO_WARMTH } from '../../agronomy/ripening/warmth.ts'
import type { Ledger, Named } from '../../ledger/read/ledger.ts'
import { dayOf, type IsoDate, isoDate } from '../../records/date.ts'
import type { Block } from '../../records/kinds/block.ts'
import { entriesOf } from '../block-entries.ts'
import { sampleDays } from '../ripeness/sample-day.ts'
import { samplesOf } from '../ripeness/samples.ts'
import { sugarReadings } from './readings.ts'
import { halfColourOf } from './veraison.ts'

/** Fewest sampling days for a past season to be used. Own choice, no source. */
const LEAST_DAYS = 3
/** Most past seasons used, newest first: of the block, and of other blocks of its variety. Own choice, no source. */
const MOST = { own: 6, variety: 6 }

export type Learned = ReturnType<typeof learnedOf>

/** The ripening model's prior for a block, updated by its past seasons, else by its variety's; and which these are. */
export function learnedOf(ledger: Ledger, block: Named<Block>, season: number) {
  const own = lessonsOf(ledger, [block], { season, most: MOST.own })
  const like = [...ledger.blocks.values()].filter(
    ({ id, variety }) => id !== block.id && variety === block.variety,
  )
  const variety = own.length > 0 ? [] : lessonsOf(ledger, like, { season, most: MOST.variety })
  const lessons = (of: typeof own) => of.map(({ lesson }) => lesson)
  return {
    prior: learn(SUGAR, { own: lessons(own), variety: lessons(variety) }),
    by: own.length > 0 ? ('past-seasons' as const) : variety.length > 0 ? ('variety' as const) : null,
    seasons: [...new Set([...own, ...variety].map((one) => one.season))],
  }
}

/** What the newest past seasons of some blocks teach, from those that were sampled on enough days. */
function lessonsOf(
  ledger: Ledger,
  blocks: readonly Named<Block>[],
  { season, most }: { season: number; most: number },
): { season: number; lesson: Lesson }[] {
  const found: { season: number; lesson: Lesson }[] = []
  for (const one of seasonsBefore(season, ledger.samples))
    for (const { id } of blocks) {
      if (found.length === most) return found
      const readings = sugarReadings(samplesOf(ledger, { block: id, season: one }), { halfColour: null })
      if (new Set(readings.map(({ day }) => day)).size >= LEAST_DAYS)
        found.push({ season: one, lesson: lessonOf(believe(readings, SUGAR, NO_WARMTH), SUGAR) })
    }
  return found
}

/** The seasons before one of which there are entries, newest first. */
const seasonsBefore = (season: number, entries: readonly { season: number }[]): number[] =>
  [...new Set(entries.map((entry) => entry.season))].filter((one) => one < season).sort((a, b) => b - a)

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
    (entry) => entry.block === block,
  )
  return seasonsBefore(season, records).flatMap((one) => {
    const of = { block, season: one }
    const coloured = halfColourOf(ledger, of)
    const day = dayReached(ledger, { ...of, target })
    const veraison = coloured && isoDate(Math.round(coloured.day))
    const reached = day === null ? null : isoDate(Math.ceil(day))
    const picked = entriesOf(ledger.picks, of)[0]?.date ?? null
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
  const pressed = entriesOf(ledger.picks, { block, season }).flatMap(({ date, brix }) =>
    brix === undefined ? [] : { date, brix },
  )
  const sampled = sampleDays(samplesOf(ledger, { block, season }), 'brix').map(({ date, mean }) => ({
    date,
    brix: mean,
  }))
  // A sample counts before the press of its day.
  const days = new Map([...pressed, ...sampled].map(({ date, brix }) => [dayOf(date), brix]))
  const course = [...days].sort(([a], [b]) => a - b)
  const at = course.findLastIndex(([, brix]) => brix < target)
  const [before, after] = [course[at], course[at + 1]]
  if (!before || !after) return null
  return before[0] + ((target - before[1]) / (after[1] - before[1])) * (after[0] - before[0])
}
