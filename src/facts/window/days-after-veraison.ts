import { daysAfterVeraison as countOn, veraisonDay } from '../../agronomy/ripening/days-after-veraison.ts'
import { normalQuantile } from '../../agronomy/statistics/normal.ts'
import type { Ledger, StageEntry } from '../../ledger/read/ledger.ts'
import { dayOf, isoDate } from '../../records/date.ts'
import { type MethodDays, type Question, unable } from './method.ts'
import { dayReached } from './requirement.ts'

const METHOD = 'days-after-veraison'

/** BBCH 81 beginning of ripening, 83 berries colouring: what a note of veraison is taken from. */
const COLOURING = new Set([81, 83])

/** Usual days from veraison to ripeness. Common practice, from memory. */
const USUAL = { low: 30, high: 60 }

/** Own seasons from which on the block's past comes before its variety's range. */
const LEAST_OWN = 2

/** How many seasons' worth of weight the variety's range keeps in the spread of the block's own. Our choice, no source. */
const RANGE_WEIGHT = 2

const NORMAL_90 = normalQuantile(0.95)

/**
 * Days after half of the berries have coloured: the block's own, from its veraison to the day on which its samples
 * reached the record's target, where two earlier seasons tell it; else the variety's range. `asked` is a target asked for
 * in its place, which this method can't answer to and says so.
 */
export function daysAfterVeraison(
  ledger: Ledger,
  question: Question & { asked?: number | undefined },
): MethodDays {
  const noted = halfColour(ledger, question)
  if (!noted) return unable(METHOD, 'veraison (stage 81 or 83) is not noted for this block this season')
  const { half, seen } = noted
  const variety = ledger.varieties.get(ledger.blocks.get(question.block)?.variety ?? '')
  const usual = variety?.after_veraison ?? USUAL
  const own = ownDays(ledger, question)
  const range = own.length >= LEAST_OWN ? rangeOfOwn(own, usual) : usual
  const days = countOn({ veraison: half.day, within: half.within, from: range.low, to: range.high })
  const source =
    own.length >= LEAST_OWN
      ? `the block's own past to ${question.target} Brix (${own.map(({ season, days }) => `${season}: ${Math.round(days)}`).join(', ')})`
      : variety?.after_veraison
        ? `${variety.name}'s range`
        : 'the usual range (common practice, from memory)'
  const { asked } = question
  const blind =
    asked === undefined || asked === question.target
      ? ''
      : `; it knows nothing of the ${asked} Brix asked for`
  const why = `half colour about ${isoDate(Math.round(half.day))} (${seen}), and ${Math.round(range.low)} to ${Math.round(range.high)} days after it, ${source}${blind}`
  return { method: METHOD, ...days, why }
}

/** Half colour of a block in a season, from the note nearest to it; null where there is none. */
function halfColour(ledger: Ledger, { block, season, asOf }: Omit<Question, 'target'>) {
  const best = ledger.stages
    .filter(
      (entry) =>
        entry.block === block && entry.season === season && entry.date <= asOf && COLOURING.has(entry.stage),
    )
    .filter(isUsable)
    .toSorted((a, b) => awayFromHalf(a) - awayFromHalf(b))[0]
  if (!best) return null
  const share = best.share === undefined ? undefined : best.share / 100
  const half = veraisonDay({ day: dayOf(best.date), ...(share === undefined ? {} : { share }) })
  const stage = share === undefined ? `stage ${best.stage}` : `stage ${best.stage} at ${best.share} %`
  return { half, seen: `${stage} on ${best.date}` }
}

/** Days from half colour to the target in each earlier season that has both, oldest first. */
function ownDays(ledger: Ledger, question: Question): { season: number; days: number }[] {
  const { block, target } = question
  const seasons = new Set(ledger.stages.filter((entry) => entry.block === block).map(({ season }) => season))
  return [...seasons]
    .filter((season) => season < question.season)
    .sort((a, b) => a - b)
    .flatMap((season) => {
      const noted = halfColour(ledger, { ...question, season })
      const reached = dayReached(ledger, { block, season, target })
      if (!noted || reached === null || reached <= noted.half.day) return []
      return [{ season, days: reached - noted.half.day }]
    })
}

/** A 90 % range about the mean of the block's own days; their spread is joined with that of the usual range. */
function rangeOfOwn(own: readonly { days: number }[], usual: { low: number; high: number }) {
  const n = own.length
  const mean = own.reduce((sum, { days }) => sum + days, 0) / n
  const usualSpread = (usual.high - usual.low) / 2 / NORMAL_90
  const squares = own.reduce((sum, { days }) => sum + (days - mean) ** 2, 0)
  const variance = (RANGE_WEIGHT * usualSpread ** 2 + squares) / (RANGE_WEIGHT + n - 1)
  const half = NORMAL_90 * Math.sqrt(variance * (1 + 1 / n))
  return { low: Math.max(1, mean - half), high: mean + half }
}

const isUsable = ({ share }: StageEntry) => share === undefined || (share > 0 && share < 100)
const awayFromHalf = ({ share }: StageEntry) => (share === undefined ? 49 : Math.abs(share - 50))
