import { curativeClocks } from '../../facts/danger/clocks.ts'
import { mixCommand } from '../../facts/danger/mix-command.ts'
import { actionLimits, curesHours } from '../../facts/protection/acts.ts'
import { WHOLE } from '../../facts/protection/parts.ts'
import { applicationsOf } from '../../facts/spraying/applications.ts'
import { mayShareTank } from '../../facts/spraying/keep-apart.ts'
import { standsOverLabel } from '../../facts/spraying/stands-over-label.ts'
import { daysBetween, type IsoDate } from '../../records/date.ts'
import { type Disease, diseaseWord } from '../../records/disease.ts'
import { shortDate, spokenDate } from '../../records/spoken-date.ts'
import {
  fewNamesOf,
  grouped,
  harvestNear,
  namesOf,
  on,
  remediesToday,
  type TodayDraft,
  type TodayFrom,
} from './item.ts'

/** Days back in which an infection is looked for: longer than any product cures. Our own choice. */
const BACK_DAYS = 7

/** Infections on vines that weren't surely protected, and that a product of the shed may still cure. */
export function clockItems(from: TodayFrom): TodayDraft[] {
  const running = from.covers.flatMap(({ block, covers }) =>
    harvestNear(from, block.id) || standsOverLabel(from, block.id)
      ? []
      : covers.flatMap(({ disease, on }) => {
          const running = infectionsOf(from, disease, on).flatMap((infected) => {
            const clock = clockOf(from, { block: block.id, disease, infected })
            return clock ? { infected, clock } : []
          })
          // The first that still runs: of one spell of infection the time counts from its beginning.
          const [first] = running
          if (!first) return []
          const key = `${disease} ${first.infected} ${first.clock.product}`
          return [{ block: block.id, key, about: { disease, ...first } }]
        }),
  )
  return grouped(running).map(({ blocks, about: { disease, infected, clock } }) => ({
    ...on('clock', blocks),
    disease,
    urgency: 'now',
    until: clock.until,
    text: `${namesOf(from, blocks)}: ${diseaseWord(disease)} may have infected on ${shortDate(infected)} while not clearly protected. ${clock.name} acts until ${spokenDate(clock.until)} (${clock.hours} h after infection).`,
    short: `${fewNamesOf(from, blocks)}: ${clock.name} acts on the ${diseaseWord(disease)} of ${shortDate(infected)} until ${shortDate(clock.until)}.`,
    next: mixCommand(from, { blocks, products: [clock.product], diseases: [disease] }),
    tank: { products: [clock.product], diseases: [disease] },
    reasons: [`infection possible on ${shortDate(infected)}`],
  }))
}

/**
 * Items with each clock in the line of the same disease in the same blocks: one spray cures and protects. What cures and
 * lasts goes alone; else both go into the tank, where they may.
 */
export function withClocks(items: readonly TodayDraft[], from: TodayFrom): TodayDraft[] {
  const { products } = from.ledger
  const isSame = (one: TodayDraft, other: TodayDraft) =>
    one.disease === other.disease && one.blocks.toSorted().join() === other.blocks.toSorted().join()
  const covers = items.filter(({ what, tank }) => what === 'cover' && tank)
  const clocks = items.filter(({ what }) => what === 'clock')
  const told = clocks.filter((clock) => covers.some((cover) => isSame(cover, clock)))
  return items.flatMap((item) => {
    if (told.includes(item)) return []
    const clock = covers.includes(item) ? told.find((one) => isSame(one, item)) : undefined
    if (!clock) return item
    const [cure] = clock.tank!.products
    const lasts = actionLimits(products.get(cure!)!, clock.disease!).lasting === true
    const both = [...new Set([cure!, ...(lasts ? [] : item.tank!.products)])]
    const isOne = mayShareTank(both.map((id) => products.get(id)!))
    const tank = { products: isOne ? both : [cure!], diseases: [clock.disease!] }
    return {
      ...item,
      urgency: 'now',
      until: clock.until,
      text: `${item.text} ${clock.text}`,
      short: `${item.short} ${clock.short}`,
      reasons: [...(item.reasons ?? []), ...(clock.reasons ?? [])],
      tank,
      next: mixCommand(from, { blocks: item.blocks, ...tank }),
      also: isOne ? [] : [item.next],
    }
  })
}

/** The days of the newest spell of infection on which a block wasn't surely protected, oldest first. */
function infectionsOf(
  { judge, asOf }: TodayFrom,
  disease: Disease,
  coverOn: TodayFrom['covers'][number]['covers'][number]['on'],
): IsoDate[] {
  if (disease !== 'downy' && disease !== 'black-rot') return []
  const found = judge.site.days
    .filter(({ date }) => date <= asOf && daysBetween(date, asOf) < BACK_DAYS)
    .filter((day) => (disease === 'downy' ? day.downy.primary : day.blackRot.infection) === true)
    .map(({ date }) => date)
    .filter((date) => {
      const day = coverOn(date)
      return day?.needed === true && day.covered !== true
    })
  const start = found.findLastIndex((date, at) => at === 0 || daysBetween(found[at - 1]!, date) > 1)
  return found.slice(Math.max(0, start))
}

/** The product that acts longest on an infection and may be sprayed today; null where none may, or one that cures was. */
function clockOf(
  from: TodayFrom,
  { block, disease, infected }: { block: string; disease: Disease; infected: IsoDate },
) {
  const { ledger, asOf } = from
  const since = ledger.sprays.filter(({ date }) => date >= infected && date <= asOf)
  const isCured = applicationsOf(ledger, since).some(
    (one) =>
      one.block.id === block &&
      (one.share ?? 0) >= WHOLE &&
      one.targets.includes(disease) &&
      (curesHours(one.product) ?? -1) >= daysBetween(infected, one.spray.date) * 24,
  )
  if (isCured) return null
  const remedies = remediesToday(from, block, disease)
  return (
    curativeClocks(from, { disease, infected, asOf })
      .filter(({ product }) => remedies.some((one) => one.may && one.product === product))
      .toSorted((a, b) => b.hours - a.hours)[0] ?? null
  )
}
