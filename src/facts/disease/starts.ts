import { lowest } from '../../agronomy/statistics/extremes.ts'
import { dayOf, type IsoDate, isoDate } from '../../records/date.ts'
import { spokenDate } from '../../records/spoken-date.ts'
import { type Growth, growthOf } from '../danger/growth.ts'
import { growingSpan } from '../heat/window.ts'
import type { ReportInput } from '../report.ts'

/** The day from which each model runs, and why. */
export interface Starts {
  /** What is known of the growth of each requested block. */
  growths: ReadonlyMap<string, Growth>
  /** Day number from which the powdery index runs; null for every day of a file. */
  budbreak: number | null
  /** Day number on which budbreak was noted, when the index restarts; null where it wasn't. */
  restart: number | null
  /** Whether no requested block had 10 cm shoots on a day, by what was noted up to then. */
  shortShoots: (day: number) => boolean
  /** Whether no requested block had begun to flower on a day, by what was noted up to then. */
  beforeFlowering: (day: number) => boolean
  why: { budbreak: string; shoots: string; flowering: string }
}

/** BBCH stages: Lorenz et al. 1995, Aust. J. Grape Wine Res. 1:100-103. */
const GREEN_TIP = 7
/** Last stage that dates budbreak to about now rather than some time ago (BBCH). */
const JUST_BROKEN = 9
const THREE_LEAVES = 13
const FLOWERING = 61
/** Days from the first caps to full bloom. Common practice, no source. */
const FIRST_CAPS = 5

/**
 * The starts, from the growth stages noted for the requested blocks. A stage means that the vines had reached it by
 * then: a season never starts on the day of the first note.
 */
export function startsOf(input: ReportInput): Starts {
  const usual = growingSpan(input.ledger.vineyard, input.season).from
  const byBlock = new Map(input.blocks.map(({ id }) => [id, growthOf(input, id, usual)]))
  const growths = [...byBlock.values()]
  const green = growths.flatMap(({ noted }) => noted.filter(({ stage }) => stage >= GREEN_TIP))
  const first = Math.min(dayOf(usual), ...green.map(({ day }) => day))
  const broken = growths.map(({ noted }) =>
    noted.find(({ stage, day }) => stage >= GREEN_TIP && stage <= JUST_BROKEN && day > first),
  )
  // A block without a note may have had budbreak earlier.
  const restart =
    broken.length > 0 && broken.every((one) => one !== undefined)
      ? lowest(broken.map((one) => one!.day))
      : null
  const everyBlock = (holds: (growth: Growth) => boolean) => growths.length > 0 && growths.every(holds)
  return {
    growths: byBlock,
    budbreak: first,
    restart,
    shortShoots: (day) => everyBlock((growth) => !growth.shootsOn(day) && growth.stageOn(day) !== null),
    beforeFlowering: (day) => everyBlock((growth) => notFlowering(growth, day)),
    why: {
      budbreak:
        restart === null
          ? `from ${spokenDate(isoDate(first))}, the usual start of growth, since budbreak is not noted for every block`
          : `from ${spokenDate(isoDate(first))}, and started again at the budbreak noted on ${spokenDate(isoDate(restart))}`,
      shoots: noted(growths, THREE_LEAVES)
        ? 'shoots count as 10 cm long unless a note says otherwise'
        : 'no stage from 13 on is noted, so shoots count as 10 cm long',
      flowering: noted(growths, FLOWERING)
        ? 'asked from the first caps'
        : 'no stage from 61 on is noted, so flowering is guessed',
    },
  }
}

const noted = (growths: readonly Growth[], stage: number) =>
  growths.some((growth) => growth.noted.some((one) => one.stage >= stage))

function notFlowering(growth: Growth, day: number): boolean {
  const last = growth.stageOn(day)
  if (!last || last.stage >= FLOWERING) return false
  return growth.bloomsOn(day).every(({ earliest }) => day < earliest - FIRST_CAPS)
}

/** The starts where there is no ledger: every day of the file, or from the budbreak named. */
export function startsOfFile(budbreak?: IsoDate): Starts {
  return {
    growths: new Map(),
    budbreak: budbreak === undefined ? null : dayOf(budbreak),
    restart: null,
    shortShoots: () => false,
    beforeFlowering: () => false,
    why: {
      budbreak:
        budbreak === undefined
          ? 'from the first day of the file'
          : `budbreak as named, ${spokenDate(budbreak)}`,
      shoots: 'shoots are not asked about',
      flowering: 'flowering is not asked about',
    },
  }
}
