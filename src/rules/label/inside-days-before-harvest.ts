import { highest } from '../../agronomy/statistics/extremes.ts'
import { applications, countBefore, groupedBy, judged, statedTargets } from '../../facts/judged.ts'
import { daysText } from '../../facts/sentences.ts'
import type { Application } from '../../facts/spraying/applications.ts'
import { daysBeforeHarvest, daysBeforeHarvestPath } from '../../facts/spraying/label.ts'
import { earliestPick, endMinutes } from '../../facts/spraying/spray-end.ts'
import type { PickEntry } from '../../ledger/read/ledger.ts'
import { addDays, daysBetween } from '../../records/date.ts'
import { longDate, spokenDate } from '../../records/spoken-date.ts'
import { type Found, findingAt, mention, type Rule } from '../rule.ts'

/** Picked before the label's pre-harvest interval was over. */
export const insideDaysBeforeHarvest: Rule = {
  name: 'inside-days-before-harvest',
  what: 'A block was picked within the pre-harvest interval (PHI) of a product. Of several sprays of a product, the one with the latest date is named. With the day of spraying as day 0, the interval is counted in calendar days. By the cautious reading, full days of 24 hours run from the end of spraying. Without a time, they run from the end of that day. A pick before the calendar date is an error. A pick that breaks only the cautious reading is a warning.',
  limits: "The limit is the product's `before_harvest`, or that of its use.",
  source:
    "the label as copied into the product's record; meaning of the interval: NPIC, Oregon State University 2018; no end time: a farm-assurance standard. No regulator's text read says whether the day of spraying counts",
  basis: 'read',
  check(input) {
    const waits = groupedBy(applications(input).flatMap(waitOf), ({ one }) => one.block.id)
    const longest = highest([0, ...[...waits.values()].flat().map(({ days }) => days)])
    return judged(input, 'picks').flatMap((pick) => {
      const list = waits.get(pick.block) ?? []
      const from = countBefore(list, addDays(pick.date, -Math.ceil(longest) - 1), dateOf)
      const before = list.slice(from, countBefore(list, addDays(pick.date, 1), dateOf))
      const broken = groupedBy(
        before.filter((wait) => isBroken(wait, pick)),
        ({ one }) => one.product.id,
      )
      return [...broken.values()].map((same) => told(same.reduce(longer), pick))
    })
  },
}

type Wait = ReturnType<typeof waitOf>[number]

/** The pre-harvest interval of an application, where it has one, and the first days on which picking is allowed. */
function waitOf(one: Application) {
  const days = daysBeforeHarvest(one.product, statedTargets(one))
  return days ? [{ one, days, ...earliestPick(one.spray, days) }] : []
}

const dateOf = ({ one }: Wait) => one.spray.date

/** Of two sprays of a product, the one that delays picking longer. */
const longer = (a: Wait, b: Wait) =>
  b.calendar > a.calendar || (b.calendar === a.calendar && b.cautious > a.cautious) ? b : a

function isBroken({ one, calendar, cautious }: Wait, pick: PickEntry): boolean {
  if (pick.date >= cautious || pickedFirst(one, pick)) return false
  return pick.date < calendar || !pick.time || pick.time.start < endMinutes(one.spray)
}

function told({ one, days, calendar, cautious }: Wait, pick: PickEntry): Found {
  const { spray, product } = one
  const early = pick.date < calendar
  const gap = daysBetween(spray.date, pick.date)
  const sprayed =
    gap === 0
      ? `on the day ${product.name} was sprayed, ${longDate(spray.date)}`
      : `${daysText(gap)} after ${product.name} was sprayed on ${longDate(spray.date)}`
  const dates =
    calendar === cautious
      ? spokenDate(calendar)
      : `${spokenDate(calendar)} if the day of spraying counts as day 0, else ${spokenDate(cautious)}`
  return findingAt(pick, ['date'], {
    level: early ? 'error' : 'warning',
    message: `picked ${sprayed} (${mention(spray, ['date'])}). The label needs ${days} d (${mention(product, daysBeforeHarvestPath(product, statedTargets(one)))}). First day to pick: ${dates}`,
    help: early
      ? 'correct the dates if one is mistyped. Else keep this fruit separate, and ask your adviser before you use it'
      : 'write the times of spraying and picking, which settle it',
  })
}

/** Whether the pick came before the spray on the same day. */
const pickedFirst = ({ spray }: Application, pick: PickEntry) =>
  pick.date === spray.date &&
  pick.time?.end != null &&
  spray.time !== undefined &&
  pick.time.end <= spray.time.start
