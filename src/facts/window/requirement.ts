import { sugarRequirements, sugarTargets } from '../../agronomy/heat/heat-requirements.ts'
import { sugarPerLitre } from '../../agronomy/ripening/sugar-content.ts'
import type { Ledger } from '../../ledger/read/ledger.ts'
import { dayOf } from '../../records/date.ts'
import { brixByDay, samplesOf } from '../ripeness/samples.ts'
import { heatSumOf } from './heat-ahead.ts'
import type { Question } from './method.ts'
import type { Temperatures } from './temperatures.ts'

/** Published error of a heat sum to a sugar target: 7 to 10 days (Parker et al. 2020, OENO One 54). */
const PUBLISHED_DAYS = 8.5

/**
 * How many seasons' worth of weight the published error keeps beside the block's own seasons, since two or three
 * seasons say little about how much they vary. Our choice, no source.
 */
const PUBLISHED_WEIGHT = 2

/** °C-days from the start of the sum to the target, and its error as a standard deviation in days. */
export interface Requirement {
  sum: number
  errorDays: number
  source: string
}

type Found = Requirement | { missing: string }

/**
 * What this block needed in its own earlier seasons to reach a target, else what its variety is said to need. The seasons
 * are read once; the function that is returned answers for one target after another.
 */
export function requirementsOf(
  ledger: Ledger,
  {
    question,
    temperatures,
    pace,
  }: { question: Omit<Question, 'target'>; temperatures: Temperatures; pace: number },
): (target: number) => Found {
  const { block } = question
  const seasons = temperatures.past.map((past) => ({ ...past, course: courseOf(ledger, { ...past, block }) }))
  return (target) => {
    const own = seasons.flatMap(({ season, start, means, course }) => {
      const reached = dayPassed(course, target)
      const sum = reached === null ? null : heatSumOf(means, start, Math.round(reached))
      return sum === null ? [] : [{ season, sum: sum.sum }]
    })
    return own.length > 0 ? fromOwn(own, pace) : fromVariety(ledger, { ...question, target })
  }
}

function fromOwn(own: readonly { season: number; sum: number }[], pace: number): Requirement {
  const n = own.length
  const sum = own.reduce((total, each) => total + each.sum, 0) / n
  const days = own.map((each) => (each.sum - sum) / pace)
  const pooled =
    (PUBLISHED_WEIGHT * PUBLISHED_DAYS ** 2 + days.reduce((total, off) => total + off ** 2, 0)) /
    (PUBLISHED_WEIGHT + n - 1)
  const seasons = own.map((each) => `${each.season}: ${Math.round(each.sum)}`).join(', ')
  return {
    sum,
    errorDays: Math.sqrt(pooled * (1 + 1 / n)),
    source: `${Math.round(sum)} °C-days, the block's own past (${seasons})`,
  }
}

/** The day, with its fraction, on which a season's samples and press passed the target for good; null where they never did. */
export function dayReached(
  ledger: Ledger,
  { block, season, target }: { block: string; season: number; target: number },
): number | null {
  return dayPassed(courseOf(ledger, { block, season }), target)
}

/** Brix of a block by day over a season, from samples and press, oldest first. */
function courseOf(ledger: Ledger, { block, season }: { block: string; season: number }): [number, number][] {
  const pressed = ledger.picks
    .filter((pick) => pick.block === block && pick.season === season && pick.brix !== undefined)
    .map((pick) => ({ date: pick.date, brix: pick.brix! }))
  const sampled = brixByDay(samplesOf(ledger, { block, season, asOf: '9999-12-31' }))
  const days = new Map([...pressed, ...sampled].map(({ date, brix }) => [dayOf(date), brix]))
  return [...days].sort(([a], [b]) => a - b)
}

function dayPassed(course: readonly [number, number][], target: number): number | null {
  const at = course.findLastIndex(([, brix]) => brix < target)
  const before = course[at]
  const after = course[at + 1]
  if (!before || !after) return null
  return before[0] + ((target - before[1]) / (after[1] - before[1])) * (after[0] - before[0])
}

function fromVariety(ledger: Ledger, { block, target }: Question): Found {
  const variety = ledger.varieties.get(ledger.blocks.get(block)?.variety ?? '')
  const grams = sugarPerLitre(target).value
  if (!variety || grams === null) return { missing: 'no requirement for this target' }
  const written = Object.entries(variety.heat?.sugar ?? {}).map(([key, sum]) => [Number(key), sum] as const)
  const name = variety.name.toLowerCase()
  const published = sugarRequirements[name]
  const table =
    written.length > 0
      ? written
      : sugarTargets.flatMap((key) =>
          published?.[key] === undefined ? [] : [[key, published[key]] as const],
        )
  const where =
    written.length > 0
      ? `varieties/${variety.id}.yaml${variety.heat?.source ? ` (${variety.heat.source})` : ''}`
      : 'figures read second-hand after Parker et al. 2020'
  if (table.length === 0)
    return {
      missing: `no earlier season of this block reached ${target} Brix in its samples, and ${variety.name} has no \`heat: sugar\``,
    }
  const sum = between(table, grams)
  if (sum === null) {
    const keys = table.map(([key]) => key)
    return {
      missing: `${target} Brix is ${Math.round(grams)} g/L, outside the ${Math.min(...keys)} to ${Math.max(...keys)} g/L of ${where}`,
    }
  }
  return {
    sum,
    errorDays: PUBLISHED_DAYS,
    source: `${Math.round(sum)} °C-days to ${Math.round(grams)} g/L, ${where}`,
  }
}

/** The requirement at a sugar between two that are given. */
function between(table: readonly (readonly [number, number])[], grams: number): number | null {
  const rows = table.toSorted(([a], [b]) => a - b)
  const at = rows.findIndex(([key]) => key >= grams)
  const above = rows[at]
  if (!above) return null
  const below = rows[at - 1]
  if (!below) return above[0] === grams ? above[1] : null
  return below[1] + ((grams - below[0]) / (above[0] - below[0])) * (above[1] - below[1])
}
