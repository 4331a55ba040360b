import { exceeds } from '../../agronomy/statistics/exceeds.ts'
import { highest } from '../../agronomy/statistics/extremes.ts'
import type { Ledger, SprayEntry } from '../../ledger/read/ledger.ts'
import { isUnmeasuredSpot } from '../block-size.ts'
import { byBlockAndProduct, groupedBy, statedTargets, surelyMeet } from '../judged.ts'
import { inLedgerUnits, unitsOf } from '../ledger-units.ts'
import { figureText, listed } from '../sentences.ts'
import { type Application, applicationsOf, doseForms } from './applications.ts'
import { type DoseLimit, impliedLimits, inFormOf, limitsFor } from './label.ts'
import { type Applied, countOver, runningSums, totalOver, withinInterval } from './season-limits.ts'
import { stagesOutside } from './stage-limit.ts'

/** Shown where a spray was over the label: the waiting times were set for the label's dose. */
export const OVER_LABEL =
  'it is over the label. Do not pick or re-enter until your adviser or the authority has told you'

/** A label limit that an application exceeds. */
interface DoseOver {
  limit: DoseLimit
  value: number
}

/**
 * The label's dose limits that an application exceeds, one for each form. Where the entry names several targets, or
 * none, the use that allows most decides, since the dose is allowed under it; where it names only targets that the
 * label doesn't, all uses count.
 * @param before applications whose doses are added to this one
 */
export function dosesOver(one: Application, before: readonly Application[] = []): DoseOver[] {
  const doses = [one, ...before].map(doseForms)
  const stated = statedTargets(one)
  const targets = limitsFor(one.product, stated).length > 0 ? stated : undefined
  const written = limitsFor(one.product, targets)
  const isImplied = isUnmeasuredSpot(one.spray) && written.every(({ form }) => form !== 'concentration')
  const limits = isImplied ? [...written, ...impliedLimits(one.product, targets)] : written
  const compared = limits.flatMap((limit) => {
    const values = doses.map((dose) => inFormOf(limit, dose)).filter((value) => value !== null)
    return values.length === 0 ? [] : [{ limit, value: values.reduce((sum, value) => sum + value) }]
  })
  return [...groupedBy(compared, ({ limit }) => `${limit.form} ${limit.unit}`).values()].flatMap((same) => {
    const most = same.reduce((a, b) => (b.limit.high > a.limit.high ? b : a))
    return exceeds(most.value, most.limit.high) ? [most] : []
  })
}

/** A product of a spray that was used over its label, and how. */
export interface OverLabel {
  product: string
  date: string
  /** In words: `60 kg/ha, the label allows at most 6 kg/ha`. */
  why: string
}

/** A sentence on uses over the label: the first use of each product, and how many more. */
export function overLabelSentence(over: readonly OverLabel[]): string {
  const what = [...groupedBy(over, ({ product }) => product)].map(([product, uses]) => {
    const more = uses.length - 1
    const rest = more === 0 ? '' : `, and ${more === 1 ? 'once' : `${more} times`} more`
    return `${product} (${uses[0]!.why}${rest})`
  })
  return `Over the label: ${listed(what)}. Do not pick or re-enter until your adviser or the authority has told you.`
}

/** Uses over the label in the sprays of a season, for the ledger as it then was. */
interface Worked extends Pick<Ledger, 'products' | 'blocks' | 'stages'> {
  count: number
  seasons: Map<number, Map<SprayEntry, OverLabel[]>>
}

const known = new WeakMap<readonly SprayEntry[], Worked>()

/**
 * The products of a spray that were used over their label, on any of its blocks, and how: in dose, in number or in
 * total in the season, sooner after the last spray than the interval with more than one dose between them, or later in
 * growth than the label allows. A label's waiting times, before harvest (PHI) and for re-entry (REI), were set for its
 * own doses, numbers and stages, so none holds for such a spray (common practice, no source). A shortened interval
 * within the label's dose, a target that the label doesn't name and copper over the vineyard's own limit are errors in
 * the ledger, but don't put the waiting times in doubt.
 */
export function overLabelOf(ledger: Ledger, spray: SprayEntry): OverLabel[] {
  const { sprays, products, blocks, stages } = ledger
  let worked = known.get(sprays)
  const stands =
    worked?.products === products &&
    worked.blocks === blocks &&
    worked.stages === stages &&
    worked.count === sprays.length
  if (!worked || !stands) {
    worked = { products, blocks, stages, count: sprays.length, seasons: new Map() }
    known.set(sprays, worked)
  }
  const { season } = spray
  const found = worked.seasons.get(season) ?? overInSeason(ledger, season)
  worked.seasons.set(season, found)
  return found.get(spray) ?? overLabelOf(withSpray(ledger, spray), spray)
}

/** The ledger with one more spray in its place by date, to judge a spray that isn't written yet. */
export const withSpray = (ledger: Ledger, spray: SprayEntry): Ledger => ({
  ...ledger,
  sprays: [...ledger.sprays, spray].toSorted((a, b) => (a.date < b.date ? -1 : a.date > b.date ? 1 : 0)),
})

function overInSeason(ledger: Ledger, season: number): Map<SprayEntry, OverLabel[]> {
  const sprays = ledger.sprays.filter((spray) => spray.season === season)
  const all = byBlockAndProduct(applicationsOf(ledger, sprays)).flatMap((list) =>
    list.map(runningSums()).flatMap((upTo, at) => {
      const { spray, product } = list[at]!
      const why = whyOver(ledger, list, { at, upTo })
      if (why === null) return []
      return [{ spray, product: product.id, why: inLedgerUnits(why, unitsOf(ledger), 'spray') }]
    }),
  )
  const bySpray = new Map<SprayEntry, OverLabel[]>(sprays.map((spray) => [spray, []]))
  for (const { spray, product, why } of all) {
    const told = bySpray.get(spray)!
    if (!told.some((one) => one.product === product)) told.push({ product, date: spray.date, why })
  }
  return bySpray
}

/** How an application was over the label, in words, dose first; null where it kept to the label. */
function whyOver(
  ledger: Ledger,
  list: readonly Application[],
  { at, upTo }: { at: number; upTo: Applied },
): string | null {
  const one = list[at]!
  const doseText = ({ limit, value }: DoseOver) =>
    `${figureText(value, limit.unit)}, the label allows at most ${figureText(limit.high, limit.unit)}`
  const dose = dosesOver(one).at(-1)
  if (dose) return doseText(dose)
  const count = countOver(one, upTo)
  if (count) return `application ${count.count}${count.whose} this season, the label allows ${count.most}`
  const total = totalOver(one, upTo)
  if (total)
    return `${figureText(total.total, total.unit)} in all this season, the label allows at most ${figureText(total.most, total.unit)}`
  const soon = withinInterval(list, at)
  const together = soon && dosesOver(one, soon.before).at(-1)
  if (soon && together) {
    const sure = soon.before.some((other) => surelyMeet(other, one))
    return `again after ${soon.days} d${sure ? '' : ', counted as on the same vines'}, the label needs ${soon.asked} d; together ${doseText(together)}`
  }
  const late = stagesOutside(ledger, one).find(({ isLate }) => isLate)
  return late
    ? `at growth stage ${late.stage}, the label ends at ${highest(late.allowed.map(({ high }) => high))}`
    : null
}
