import { bloomBy, type DaySpan, daysSinceThreeLeaves } from '../../agronomy/heat/bloom-timing.ts'
import { dayOf, type IsoDate, isoDate } from '../../records/date.ts'
import { atFirstUse } from '../../records/fields/field.ts'
import { shortDate } from '../../records/spoken-date.ts'
import type { ReportInput } from '../report.ts'
import { botrytisTimes } from './botrytis-times.ts'
import { type BloomSpan, usualBloomOf } from './usual-bloom.ts'

/** A growth stage noted for a block, by day number. */
export interface NotedStage {
  day: number
  stage: number
}

/**
 * What is known of a block's growth. A stage means the vines had reached it by that day, so it narrows down the
 * days after it; for the days before, it only adds possibilities and never removes any.
 */
export type Growth = ReturnType<typeof growthOf>

/** Days for which a stage before three leaves is trusted. Our own choice. */
const EARLY_LASTS = 21
/**
 * Days after the usual start of growth from which shoots may have three leaves where nothing is noted. Common practice,
 * no source.
 */
const UNSEEN_SHOOTS = 14
/** BBCH stages: Lorenz et al. 1995, Aust. J. Grape Wine Res. 1:100-103. */
const THREE_LEAVES = 13
/** Stages close enough to bloom to date it: separated flowers to fruit set (BBCH). Common practice, no source. */
const PINS = { from: 57, to: 71 }
/** Beginning of ripening (BBCH). */
const VERAISON = 81

/** The growth of a block in a season, by all stages noted up to the day of looking. */
export function growthOf(input: Omit<ReportInput, 'blocks'>, block: string, growingFrom: IsoDate) {
  const noted = notedStages(input, block)
  const usual = usualBloomOf(input, block)
  const start = dayOf(growingFrom) + UNSEEN_SHOOTS
  const stageOn = (day: number) => noted.findLast((one) => one.day <= day) ?? null
  const spans = noted.map((one) => ({ ...bloomBy(one.stage, one.day), one }))
  const pinned = spans.map((span) =>
    span.one.stage >= PINS.from && span.one.stage <= PINS.to ? [spanOf([span])] : [],
  )
  // By the number of stages noted so far: the answer changes only with a new note.
  const known = Array.from({ length: noted.length + 1 }, (_, past) =>
    atFirstUse(() => {
      const blooms = [past === 0 ? usual : spanOf(spans.slice(0, past)), ...pinned.slice(past).flat()]
      const isRipe = noted.slice(0, past).some(({ stage }) => stage >= VERAISON)
      return { blooms, times: atFirstUse(() => botrytisTimes(blooms, { isRipe, noted })) }
    }),
  )
  const knownOn = (day: number) => known[noted.findLastIndex((one) => one.day <= day) + 1]!()
  // Stages noted later also say something about growth before them.
  const spoken = noted
    .filter(({ stage }) => stage >= THREE_LEAVES)
    .map(({ stage, day }) => ({ from: day - daysSinceThreeLeaves(stage), until: day }))
  const shootsOn = (day: number) => {
    if (spoken.some(({ from, until }) => day >= from && day < until)) return true
    const last = stageOn(day)
    if (!last) return day >= start
    if (last.stage >= THREE_LEAVES) return true
    return day >= last.day + EARLY_LASTS
  }
  const veraisonOn = (day: number) => {
    const last = stageOn(day)
    if (last && last.stage >= VERAISON) return 'after' as const
    const { blooms } = knownOn(day)
    if (blooms.every(({ latest }) => day > latest + 75)) return 'after' as const
    return blooms.some(({ earliest }) => day >= earliest + 45) ? ('may be' as const) : ('before' as const)
  }
  return {
    noted,
    /** The last stage noted by the end of a day. */
    stageOn,
    /** Every span of bloom that is possible, as known on a day. */
    bloomsOn: (day: number) => knownOn(day).blooms,
    /** Every time that botrytis sprays are timed for, as known on a day. */
    timesOn: (day: number) => knownOn(day).times(),
    /** Whether shoots may have leaves to infect (stage 13, 10 cm). */
    shootsOn,
    /** Whether veraison has passed, by a stage noted up to the day or the latest day that bloom allows. */
    veraisonOn,
  }
}

/**
 * The span from all stages noted by then: the one closest to bloom leads, and those that disagree with it are dropped.
 */
function spanOf(given: readonly (DaySpan & { one: NotedStage })[]): BloomSpan {
  const spans = given.toSorted(
    (a, b) => a.latest - a.earliest - (b.latest - b.earliest) || b.one.day - a.one.day,
  )
  const { one: closest } = spans[0]!
  let { earliest, latest } = spans[0]!
  for (const span of spans) {
    if (span.earliest > latest || span.latest < earliest) continue
    earliest = Math.max(earliest, span.earliest)
    latest = Math.min(latest, span.latest)
  }
  return {
    earliest,
    latest,
    why: `stage ${closest.stage} on ${shortDate(isoDate(closest.day))}`,
    guess: false,
  }
}

function notedStages({ ledger, season, asOf }: Omit<ReportInput, 'blocks'>, block: string): NotedStage[] {
  const entries = [
    ...ledger.stages.filter((entry) => entry.block === block),
    ...ledger.scouting.filter((entry) => entry.block === block),
    ...ledger.sprays.filter((entry) => entry.blocks.includes(block)),
  ]
  const all = entries.flatMap(({ season: of, date, stage }) =>
    of === season && date <= asOf && stage !== undefined && stage < 90 ? [{ day: dayOf(date), stage }] : [],
  )
  // The same stage noted twice on a day counts once.
  const different = new Map(all.map((one) => [`${one.day} ${one.stage}`, one]))
  return [...different.values()].sort((a, b) => a.day - b.day || a.stage - b.stage)
}
