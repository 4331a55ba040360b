import { GROUP_LIMITS, mostPerSeason } from '../../agronomy/spraying/group-limits.ts'
import { exceeds } from '../../agronomy/statistics/exceeds.ts'
import type { Ledger, Named } from '../../ledger/read/ledger.ts'
import { addDays, dayOf, daysBetween, type IsoDate, latestOf } from '../../records/date.ts'
import { type Disease, diseaseWord } from '../../records/disease.ts'
import type { Product } from '../../records/kinds/product.ts'
import { shortDate } from '../../records/spoken-date.ts'
import { degreesText, inLedgerUnits, unitsOf } from '../ledger-units.ts'
import type { ReportInput } from '../report.ts'
import { listed } from '../sentences.ts'
import { holdsSulphur } from '../spraying/actives.ts'
import { allowancesOf } from '../spraying/allowance.ts'
import { type Application, applicationsOf } from '../spraying/applications.ts'
import { groupsOf, spraysAgainst } from '../spraying/group-sequence.ts'
import { gapBetween } from '../spraying/keep-apart.ts'
import { daysBeforeHarvest, leastPerHa, shortestInterval, stagesOf } from '../spraying/label.ts'
import { keepOutOf } from '../spraying/re-entry.ts'
import { earliestPick } from '../spraying/spray-end.ts'
import { stockOf } from '../spraying/stock.ts'
import { HOT_DAY, VERY_HOT_DAY } from '../weather/heat-around.ts'
import { factsOf } from './remedy-facts.ts'

/** A product in the shed against a disease, and whether a block may be sprayed with it on a day. */
export interface Remedy {
  product: string
  name: string
  /** Whether nothing recorded rules it out. */
  may: boolean
  /** What rules it out; empty where nothing does. */
  against: string[]
  /** What to know about it: pre-harvest interval, re-entry, stock left, group. */
  facts: string[]
  /** Whether one more spray would use its group more often than an advisory body advises. */
  overused: boolean
  /** That its pre-harvest interval has to be read on its label first; null where it hasn't. */
  unread: string | null
  /** What a spray needs, where that is more than is left; else null. */
  short: string | null
}

/** Added to a sulphur product where heat is forecast. */
export const SULPHUR_IN_HEAT = 'sulphur burns in heat'

interface RemedyFrom {
  block: string
  disease: Disease
  /** Day of spraying. */
  date: IsoDate
  /** Earliest likely day of picking; null where unknown. */
  picking: IsoDate | null
  /** The last growth stage noted. */
  stage: number | null
  /** Forecast highest °C, by day number. */
  heatAhead?: ReadonlyMap<number, number> | undefined
}

/** Every product whose label names the disease; those that may be used come first. */
export function remediesFor(input: Omit<ReportInput, 'blocks'>, from: RemedyFrom): Remedy[] {
  const { ledger, season } = input
  const used = applicationsOf(
    ledger,
    ledger.sprays.filter((spray) => spray.season === season && spray.date <= from.date),
  ).filter(({ block }) => block.id === from.block)
  const keptOut = notToBeEntered(ledger, used, from)
  const isFor = ({ uses }: Product) => uses.some(({ against }) => against === from.disease)
  /** Why a product may not be used by itself, whatever its partners. */
  const against = (product: Named<Product>) => [
    ...(isFor(product) ? byLabel(product, used, from) : []),
    ...usedUp(input, product, from),
    ...((stockOf(ledger, product, from.date)?.left ?? 1) <= 0 ? ['none left'] : []),
  ]
  /** A product whose label requires a partner when none of its partners may be used. */
  const withoutPartner = (partners: readonly string[]) =>
    partners.flatMap((id) => ledger.products.get(id) ?? []).some((one) => against(one).length === 0)
      ? []
      : [`label needs ${listed(partners)} in the tank, and it may not be used now`]
  return [...ledger.products.values()]
    .filter(isFor)
    .map((product) => {
      const heat = sulphurHeat(product, from)
      const hot = heat
        ? [
            `${degreesText(heat.highest, unitsOf(ledger))} forecast for ${shortDate(heat.date)}, ${SULPHUR_IN_HEAT}`,
          ]
        : []
      const not = [
        ...against(product),
        ...(product.with ? withoutPartner(product.with) : []),
        ...keptOut,
        ...(heat && heat.highest >= VERY_HOT_DAY ? hot : []),
      ]
      const groups = overusedGroups(product, used, from.disease)
      const facts = [...factsOf(ledger, product, from), ...groups, ...hot]
      const unread = isUnread(product, from) ? READ_PHI : null
      const { id, name } = product
      const may = not.length === 0
      const overused = groups.length > 0
      return { product: id, name, may, against: not, facts, overused, unread, short: null }
    })
    .sort(bestFirst(ledger))
}

/**
 * Those that may be used first; of these the ones whose label needn't be read first, whose group isn't overused, that
 * protect for days, and that are in stock in full.
 */
export const bestFirst = (ledger: Ledger) => (a: Remedy, b: Remedy) =>
  Number(b.may) - Number(a.may) ||
  Number(a.unread !== null) - Number(b.unread !== null) ||
  Number(a.overused) - Number(b.overused) ||
  lasting(ledger, b) - lasting(ledger, a) ||
  Number(a.short !== null) - Number(b.short !== null)

/** What has to be settled before it is sprayed. */
export const doubtsOf = ({ unread, short }: Remedy): string[] => [unread ?? [], short ?? []].flat()

/** Said of a product whose pre-harvest interval isn't recorded, once a day of picking is expected. */
const READ_PHI = 'read on its label first whether its PHI ends before picking'

/** Whether picking is in sight, and nothing recorded says how long before it the product may be sprayed. */
const isUnread = (product: Product, { disease, picking }: RemedyFrom) =>
  picking !== null && daysBeforeHarvest(product, [disease]) === null

/**
 * The groups that one more spray would use more often than an advisory body advises, as `check` then warns. Where the label
 * has a limit of its own in a row, that one rules instead.
 */
function overusedGroups(product: Named<Product>, used: readonly Application[], disease: Disease): string[] {
  const groups = groupsOf({ product })
  const sprays = [...spraysAgainst(used, disease).map((spray) => spray.groups), groups]
  const isOver = (limit: (typeof GROUP_LIMITS)[number]) => {
    const held = sprays.map((each) => each.includes(limit.group))
    const inRow = held.length - 1 - held.lastIndexOf(false)
    const most = product.max_in_row === undefined ? (limit.maxInRow ?? Infinity) : Infinity
    return inRow > most || held.filter(Boolean).length > mostPerSeason(limit, held.length)
  }
  return GROUP_LIMITS.filter((limit) => limit.disease === disease && groups.includes(limit.group))
    .filter(isOver)
    .map(({ group }) => `group ${group} used as often as advised, take another group`)
}

/**
 * 1 for products that protect for days, 0 for contact salts, oils and biologicals: these are named last, since their
 * effect on established mildew is much weaker (Nita, Virginia Tech 2011, read).
 */
function lasting(ledger: Ledger, { product }: Remedy): 0 | 1 {
  const { actives, kind } = ledger.products.get(product)!
  const gentle = actives.some(({ group }) => group === 'NC' || group?.startsWith('BM'))
  return gentle || kind === 'biological' || kind === 'oil' ? 0 : 1
}

/** Heat forecast for the day of spraying or the next, in which sulphur may burn; null where there is none. */
function sulphurHeat(product: Product, { date, heatAhead }: RemedyFrom) {
  if (!heatAhead || !holdsSulphur(product)) return null
  const days = [date, addDays(date, 1)].flatMap((day) => {
    const highest = heatAhead.get(dayOf(day))
    return highest === undefined || highest < HOT_DAY ? [] : [{ date: day, highest }]
  })
  return days.toSorted((a, b) => b.highest - a.highest)[0] ?? null
}

/** The limits that leave less of a product than the lowest dose of its label. */
function usedUp(input: Omit<ReportInput, 'blocks'>, product: Named<Product>, from: RemedyFrom): string[] {
  const { ledger, season } = input
  const { disease, block, date } = from
  const least = leastPerHa(product, disease)
  return allowancesOf(ledger, { block, product, season, date })
    .filter(({ perHa }) => perHa <= 0 || exceeds(least, perHa))
    .map(({ used }) => inLedgerUnits(used, unitsOf(ledger)))
}

/** Why the label rules out a spray on the day. */
function byLabel(product: Named<Product>, used: readonly Application[], from: RemedyFrom): string[] {
  const { disease, date, picking, stage } = from
  const own = used.filter((one) => one.product.id === product.id)
  const use = product.uses.find(({ against }) => against === disease)!
  const said: string[] = []
  const { until, from: begins } = product.authorisation ?? {}
  if (until !== undefined && date > until) said.push(`authorisation ended ${shortDate(until)}`)
  if (begins !== undefined && date < begins) said.push(`authorised from ${shortDate(begins)}`)
  const days = daysBeforeHarvest(product, [disease])
  if (days !== null && picking !== null && earliestPick({ date, time: undefined }, days).cautious > picking)
    said.push(`PHI of ${days} d runs past picking from ${shortDate(picking)}`)
  const stages = stagesOf(product, { use, index: product.uses.indexOf(use) })
  if (stages && stage !== null && (stage < stages.low || stage > stages.high))
    said.push(`label allows stages ${stages.low} to ${stages.high} only`)
  const most = Math.min(use.max_per_season ?? Infinity, product.max_per_season ?? Infinity)
  if (own.length >= most) said.push(`${own.length} of ${most} applications used`)
  const last = own.at(-1)
  const interval = shortestInterval(product, [disease])
  if (last && interval && daysBetween(last.spray.date, date) < interval.days)
    said.push(`sprayed ${shortDate(last.spray.date)}, label needs ${interval.days} d between sprays`)
  if (runOf(product, used, disease) >= (product.max_in_row ?? Infinity))
    said.push(`its group was used ${product.max_in_row} times in a row`)
  const near = used.flatMap((one) => {
    const gap = one.product.id === product.id ? null : gapBetween(one.product, product)
    return gap && daysBetween(one.spray.date, date) < Math.max(1, gap.days) ? [{ one, gap }] : []
  })
  for (const { one, gap } of near.slice(-1))
    said.push(
      `${one.product.name} sprayed ${shortDate(one.spray.date)}, ${gap.days === 0 ? 'never on one day' : `keep ${gap.days} d apart`}`,
    )
  return said
}

/** How many sprays in a row against a disease already used one of a product's groups. */
function runOf(product: Product, used: readonly Application[], disease: Disease): number {
  const groups = product.actives.flatMap(({ group }) => group ?? [])
  const against = used.filter(({ targets }) => targets.includes(disease))
  const isSame = (one: Application) =>
    one.product.actives.some(({ group }) => group && groups.includes(group))
  const sprays = [...new Set(against.map(({ spray }) => spray))]
  const same = new Set(against.filter(isSame).map(({ spray }) => spray))
  return sprays.length - 1 - sprays.findLastIndex((spray) => !same.has(spray))
}

/** The first day of entry set by whoever cleared a spray over the label, where that is still to come. */
function notToBeEntered(ledger: Ledger, used: readonly Application[], { date }: RemedyFrom): string[] {
  const last = latestOf(
    used.flatMap(({ spray }) => {
      const { over } = spray.cleared ? keepOutOf(ledger, spray) : {}
      return over?.cleared && over.date > date ? over.date : []
    }),
  )
  return last === undefined ? [] : [`nobody may enter before ${shortDate(last)}, as cleared`]
}

/** `Sulphur 80 (PHI 28 d, REI 24 h, 18 kg left)`, for those that may be used. */
export function shedText(remedies: readonly Remedy[], disease: Disease): string {
  const may = remedies.filter((one) => one.may)
  if (may.length > 0)
    return `In the shed against ${diseaseWord(disease)}: ${may.map((one) => `${one.name} (${[...one.facts, ...doubtsOf(one)].join(', ')})`).join('; ')}.`
  if (remedies.length === 0) return `No product against ${diseaseWord(disease)} is recorded.`
  const not = remedies.map(({ name, against }) => `${name}: ${against[0]}`).join('; ')
  return `Nothing in the shed may be used against ${diseaseWord(disease)} now (${not}).`
}
