import { curativeClocks } from '../../facts/danger/clocks.ts'
import { mixCommand } from '../../facts/danger/mix-command.ts'
import { remediesFor } from '../../facts/danger/remedies.ts'
import { curesHours } from '../../facts/protection/acts.ts'
import { WHOLE } from '../../facts/protection/parts.ts'
import { applicationsOf } from '../../facts/spraying/applications.ts'
import { standsOverLabel } from '../../facts/spraying/stands-over-label.ts'
import { dayOf, daysBetween, type IsoDate } from '../../records/date.ts'
import { shortDate, spokenDate } from '../../records/spoken-date.ts'
import type { Disease } from '../../records/target.ts'
import { fewNamesOf, grouped, harvestNear, namesOf, type TodayDraft, type TodayFrom } from './item.ts'

/** Days back in which an infection is looked for: longer than any product cures. Our own choice. */
const BACK_DAYS = 7

/** Infections on vines that weren't surely protected, and that a product of the shed may still cure. */
export function clockItems(from: TodayFrom): TodayDraft[] {
  const running = from.covers.flatMap(({ block, covers }) =>
    harvestNear(from, block.id) || standsOverLabel(from, block.id)
      ? []
      : covers.flatMap(({ disease, days }) => {
          const infected = infectionOf(from, disease, days)
          const clock = infected && clockOf(from, { block: block.id, disease, infected })
          return infected && clock
            ? [
                {
                  block: block.id,
                  key: `${disease} ${infected} ${clock.product}`,
                  about: { disease, infected, clock },
                },
              ]
            : []
        }),
  )
  return grouped(running).map(({ blocks, about: { disease, infected, clock } }) => ({
    what: 'clock',
    block: blocks[0]!,
    blocks,
    disease,
    urgency: 'now',
    until: clock.until,
    text: `${namesOf(from, blocks)}: ${disease} may have infected on ${shortDate(infected)} while not clearly protected. ${clock.name} acts until ${spokenDate(clock.until)} (${clock.hours} h after infection).`,
    short: `${fewNamesOf(from, blocks)}: ${clock.name} acts on the ${disease} of ${shortDate(infected)} until ${shortDate(clock.until)}.`,
    next: mixCommand(from, { blocks, products: [clock.product], diseases: [disease] }),
    reasons: [`infection possible on ${shortDate(infected)}`],
  }))
}

/** The newest day of infection on which a block wasn't surely protected; null where none was of late. */
function infectionOf(
  { judge, asOf }: TodayFrom,
  disease: Disease,
  days: TodayFrom['covers'][number]['covers'][number]['days'],
): IsoDate | null {
  if (disease !== 'downy' && disease !== 'black-rot') return null
  const found = judge.site.days
    .filter(({ date }) => date <= asOf && daysBetween(date, asOf) < BACK_DAYS)
    .filter((day) => (disease === 'downy' ? day.downy.primary : day.blackRot.infection) === true)
    .findLast(({ date }) => {
      const day = days.find((one) => one.date === date)
      return day?.needed === true && day.covered !== true
    })
  return found?.date ?? null
}

/** The product that acts longest on an infection and may be sprayed today; null where none may, or one that cures was. */
function clockOf(
  from: TodayFrom,
  { block, disease, infected }: { block: string; disease: Disease; infected: IsoDate },
) {
  const { ledger, asOf, judge } = from
  const since = ledger.sprays.filter(({ date }) => date >= infected && date <= asOf)
  const isCured = applicationsOf(ledger, since).some(
    (one) =>
      one.block.id === block &&
      (one.share ?? 0) >= WHOLE &&
      one.targets.includes(disease) &&
      (curesHours(one.product) ?? -1) >= daysBetween(infected, one.spray.date) * 24,
  )
  if (isCured) return null
  const may = new Set(
    remediesFor(from, {
      block,
      disease,
      date: asOf,
      picking: from.windows.get(block)?.earliest ?? null,
      stage: judge.growth(block).stageOn(dayOf(asOf))?.stage ?? null,
      heatAhead: from.forecast?.highest,
    }).flatMap((one) => (one.may ? [one.product] : [])),
  )
  return (
    curativeClocks(from, { disease, infected, asOf })
      .filter(({ product }) => may.has(product))
      .toSorted((a, b) => b.hours - a.hours)[0] ?? null
  )
}
