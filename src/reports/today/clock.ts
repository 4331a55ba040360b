import { mixCommand } from '../../facts/danger/mix-command.ts'
import { doubtsOf } from '../../facts/danger/remedies.ts'
import { actionLimits, curesHours } from '../../facts/protection/acts.ts'
import { WHOLE } from '../../facts/protection/parts.ts'
import { applicationsOf } from '../../facts/spraying/applications.ts'
import { mayShareTank } from '../../facts/spraying/keep-apart.ts'
import { addDays, daysBetween, type IsoDate } from '../../records/date.ts'
import { type Disease, diseaseWord } from '../../records/disease.ts'
import { shortDate, spokenDate } from '../../records/spoken-date.ts'
import {
  fewNamesOf,
  grouped,
  maySpray,
  namesOf,
  remediesToday,
  type TodayDraft,
  type TodayFrom,
} from './item.ts'

/** Days back in which an infection is looked for: longer than any product cures. Our own choice. */
const BACK_DAYS = 7

/** Infections on vines that weren't surely protected, and that a product of the shed may still cure. */
export function clockItems(from: TodayFrom): TodayDraft[] {
  const running = from.covers.flatMap(({ block, cover }) => {
    const { disease } = cover
    const infections = maySpray(from, block) ? infectionsOf(from, cover) : []
    // The first that still runs: of one spell of infection the time counts from its beginning.
    for (const infected of infections) {
      const clock = clockOf(from, { block, disease, infected })
      const key = `${disease} ${infected} ${clock?.product}`
      if (clock) return [{ block, key, about: { disease, infected, ...clock } }]
    }
    return []
  })
  return grouped(running).map(({ blocks, about }): TodayDraft => {
    const { disease, infected, product, name, hours, until } = about
    const doubts = about.doubts.map((doubt) => ` ${name}: ${doubt}.`).join('')
    const tank = { products: [product], diseases: [disease] }
    return {
      what: 'clock',
      blocks,
      disease,
      urgency: 'now',
      until,
      text: `${namesOf(from, blocks)}: ${diseaseWord(disease)} may have infected on ${shortDate(infected)} while not clearly protected. ${name} acts until ${spokenDate(until)} (${hours} h after infection).${doubts}`,
      short: `${fewNamesOf(from, blocks)}: ${name} acts on the ${diseaseWord(disease)} of ${shortDate(infected)} until ${shortDate(until)}.`,
      next: mixCommand(from, { blocks, ...tank }),
      tank,
      reasons: [`infection possible on ${shortDate(infected)}`],
    }
  })
}

/**
 * Items with each clock in the line of the same disease in the same blocks: one spray cures and protects. What cures and
 * lasts goes alone; else both go into the tank, where they may.
 */
export function withClocks(items: readonly TodayDraft[], from: TodayFrom): TodayDraft[] {
  const { products } = from.ledger
  const sameOf = (item: TodayDraft, what: TodayDraft['what']) =>
    items.find(
      (one) =>
        one.what === what &&
        one.tank &&
        one.disease === item.disease &&
        one.blocks.toSorted().join() === item.blocks.toSorted().join(),
    )
  return items.flatMap((item) => {
    if (item.what === 'clock') return sameOf(item, 'cover') ? [] : item
    const clock = item.what === 'cover' && item.tank ? sameOf(item, 'clock') : undefined
    if (!clock) return item
    const [cure] = clock.tank!.products
    const lasts = actionLimits(products.get(cure!)!, clock.disease!).lasting === true
    const both = [...new Set([cure!, ...(lasts ? [] : item.tank!.products)])]
    const isOne = mayShareTank(both.map((id) => products.get(id)!))
    const tank = { products: isOne ? both : [cure!], diseases: [clock.disease!] }
    return {
      ...item,
      urgency: 'now',
      until: clock.until!,
      text: `${item.text} ${clock.text}`,
      short: `${item.short} ${clock.short}`,
      reasons: [...item.reasons!, ...clock.reasons!],
      tank,
      next: mixCommand(from, { blocks: item.blocks, ...tank }),
      also: isOne ? [] : [item.next],
    }
  })
}

/** The days of the newest spell of infection on which a block wasn't surely protected, oldest first. */
function infectionsOf(
  { judge, asOf }: TodayFrom,
  { disease, on }: TodayFrom['covers'][number]['cover'],
): IsoDate[] {
  if (disease !== 'downy' && disease !== 'black-rot') return []
  const found = judge.site.days
    .filter(({ date }) => date <= asOf && daysBetween(date, asOf) < BACK_DAYS)
    .filter((day) => (disease === 'downy' ? day.downy.primary : day.blackRot.infection) === true)
    .map(({ date }) => date)
    .filter((date) => {
      const day = on(date)
      return day?.needed === true && day.covered !== true
    })
  const start = found.findLastIndex((date, at) => at === 0 || daysBetween(found[at - 1]!, date) > 1)
  return found.slice(Math.max(0, start))
}

/**
 * The product that acts longest on an infection and may be sprayed today, and the last day on which it acts, counted from
 * the start of the day of infection; null where none may, or one that cures was.
 */
function clockOf(from: TodayFrom, of: { block: string; disease: Disease; infected: IsoDate }) {
  const { ledger, asOf } = from
  const { block, disease, infected } = of
  const since = ledger.sprays.filter(({ date }) => date >= infected && date <= asOf)
  const isCured = applicationsOf(ledger, since).some(
    (one) =>
      one.block.id === block &&
      (one.share ?? 0) >= WHOLE &&
      one.targets.includes(disease) &&
      (curesHours(one.product) ?? -1) >= daysBetween(infected, one.spray.date) * 24,
  )
  if (isCured) return null
  const curing = remediesToday(from, block, disease).flatMap((one) => {
    const { may, product, name } = one
    const hours = curesHours(ledger.products.get(product)!)
    const until = addDays(infected, Math.max(0, Math.ceil((hours ?? 0) / 24) - 1))
    return may && hours !== null && until >= asOf
      ? [{ product, name, hours, until, doubts: doubtsOf(one) }]
      : []
  })
  return curing.toSorted((a, b) => a.doubts.length - b.doubts.length || b.hours - a.hours)[0] ?? null
}
