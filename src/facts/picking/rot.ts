import { incidenceDifference } from '../../agronomy/disease/incidence-difference.ts'
import { dayOf, daysBetween, type IsoDate } from '../../records/date.ts'
import { shortDate } from '../../records/spoken-date.ts'
import { entriesOf } from '../block-entries.ts'
import { type RoundRow, roundRows } from '../disease/round-rows.ts'
import { rainText, unitsOf } from '../ledger-units.ts'
import { sampleDays } from '../ripeness/sample-day.ts'
import { samplesOf } from '../ripeness/samples.ts'
import { targetOf } from '../ripeness/targets.ts'
import { daysText } from '../sentences.ts'
import { judgeBunches, percent } from './bunches.ts'
import { type Asked, type Gate, isOpen, OLDEST } from './gate.ts'

type RotCourse = NonNullable<ReturnType<typeof rotCourse>>

/** Level and trend of botrytis on bunches over the last two rounds; null where the last recent round found none. */
function rotCourse(asked: Asked) {
  const rows = entriesOf(asked.ledger.scouting, { ...asked, block: asked.block.id })
    .flatMap(roundRows)
    .filter(({ disease, organ }) => disease === 'botrytis' && organ === 'bunches')
  const now = rows.at(-1)
  if (!now || now.found === 0 || daysBetween(now.date, asked.asOf) > OLDEST.walk) return null
  const before = rows.findLast(({ date }) => date < now.date) ?? null
  const severityBefore = before?.found === 0 ? 0 : (before?.severity ?? null)
  const perDay =
    before === null || now.severity === null || severityBefore === null
      ? null
      : (now.severity - severityBefore) / daysBetween(before.date, now.date)
  const change =
    before &&
    incidenceDifference(
      { affected: before.found, looked: before.looked },
      { affected: now.found, looked: now.looked },
    )
  const { limit, stands } = judgeBunches(asked.ledger, now)
  return {
    now,
    before,
    severityBefore,
    /** Change in the share of surface affected, per day; null where severity wasn't scored in both rounds. */
    perDay,
    /** Whether it rose: in severity, or in incidence by more than chance. */
    rising: (perDay ?? 0) > 0 || (change !== null && change.change > 0 && change.beyondChance),
    /** Limit for picking as a share of the surface; null where the grower's limit is one of incidence. */
    limit: limit.of === 'severity' ? limit.share : null,
    over: stands === 'over',
    /** Whether it may be over a severity limit, since severity wasn't scored. */
    maybe: stands === 'open',
  }
}

/** Advice in addition to the verdict: pick now and sort, or weigh that, and why. */
export interface PickAdvice {
  what: 'pick-now-and-sort' | 'weigh-picking-now'
  reasons: string[]
}

/** The advice in words. */
export const ADVICE: Readonly<Record<PickAdvice['what'], string>> = {
  'pick-now-and-sort': 'pick now and sort',
  'weigh-picking-now': 'weigh picking now and sorting',
}

/** Whether the advice is to pick now, not only to weigh it. */
export const saysNow = (advice: PickAdvice | null): boolean => advice?.what === 'pick-now-and-sort'

/** Brix short of the target at which rot can outweigh further ripening. Common practice, no source. */
const NEARLY = 1
/** Brix short of the target at which picking is weighed where rot outruns sugar. Our own choice. */
const WITHIN_REACH = 3
/** mm of rain forecast for the week that argue against waiting with rot on the bunches. Common practice, no source. */
const MUCH_RAIN = 10

/** Days of a forecast that bear on a pick. */
export const DAYS_AHEAD = 7

/** mm of rain that a forecast names for the week from a day on; null without a forecast, or where it names none. */
export function rainInWeek(asOf: IsoDate, rain: ReadonlyMap<number, number> | undefined): number | null {
  const named = Array.from({ length: DAYS_AHEAD }, (_, at) => rain?.get(dayOf(asOf) + at) ?? []).flat()
  return named.length === 0 ? null : named.reduce((sum, mm) => sum + mm, 0)
}

const LAWFUL = new Set(['records', 'before-harvest', 're-entry'])

/**
 * Rot against ripeness: where botrytis rises, is over the limit or has rain ahead, waiting costs fruit; and where sugar
 * is at or near its target, waiting gains little. Further from the target, picking is weighed where rot would pass its
 * limit before sugar gets there. All of five block-seasons of Riesling had 3 % severity 7 to 32 days before 20 Brix
 * (Aust. J. Grape Wine Res. 2024, 6630039, table 2, read). Null where that doesn't apply, or picking isn't allowed.
 */
export function pickAdvice(
  asked: Asked,
  { gates, rain, likely }: { gates: readonly Gate[]; rain: number | null; likely: IsoDate | null },
): PickAdvice | null {
  const rot = rotCourse(asked)
  if (!rot || gates.some((gate) => LAWFUL.has(gate.gate) && !isOpen(gate))) return null
  const sugar = sugarAhead(asked, likely)
  if (!sugar) return null
  const then = sugar.days === null ? null : projected(rot, likely!)
  const outruns = rot.over || (then !== null && rot.limit !== null && then > rot.limit)
  if (sugar.short > (outruns ? WITHIN_REACH : NEARLY)) return null
  const reasons: string[] = []
  if (rot.rising) reasons.push(riseText(rot))
  if (rot.over) reasons.push(`rot is over the limit: ${standText(rot.now)}`)
  // With sugar at its target, there is no reason to wait for a score.
  if (rot.maybe && sugar.short === 0)
    reasons.push(`rot may be over the limit: ${standText(rot.now)}, severity not scored`)
  if (rain !== null && rain >= MUCH_RAIN) {
    const much = rainText(Math.round(rain), unitsOf(asked.ledger))
    reasons.push(`${much} of rain in the week ahead, with rot on the bunches`)
  }
  if (reasons.length === 0) return null
  if (sugar.short > 0) {
    const days = sugar.days === null ? '' : `, about ${daysText(sugar.days)} away`
    const only = sugar.short > NEARLY ? '' : 'only '
    reasons.push(`${only}${sugar.short.toFixed(1)} Brix short of the target${days}`)
    if (then !== null) reasons.push(`rot may be at ${percent(then)} of the surface by then`)
  }
  return { what: sugar.short > NEARLY ? 'weigh-picking-now' : 'pick-now-and-sort', reasons }
}

/** How far the last sample is below the target, Brix (0 where it is reached), and days to the likely day of the target. */
function sugarAhead(asked: Asked, likely: IsoDate | null): { short: number; days: number | null } | null {
  const target = targetOf(asked.ledger, asked.block, 'brix')
  const samples = samplesOf(asked.ledger, { ...asked, block: asked.block.id })
  const last = sampleDays(samples, 'brix').at(-1)
  if (!target || !last || daysBetween(last.date, asked.asOf) > OLDEST.sample) return null
  const short = Math.max(0, target.low - last.mean)
  return { short, days: likely !== null && likely > asked.asOf ? daysBetween(asked.asOf, likely) : null }
}

/** Severity on a day if it goes on rising as between the last two rounds; null where it isn't known to rise. */
const projected = ({ now, perDay }: RotCourse, day: IsoDate) =>
  now.severity === null || perDay === null || perDay <= 0
    ? null
    : Math.min(1, now.severity + perDay * daysBetween(now.date, day))

const standText = (row: RoundRow): string =>
  row.severity === null
    ? `${row.found} of ${row.looked} bunches`
    : `${percent(row.severity)} of the surface, ${row.found} of ${row.looked} bunches`

/**
 * `botrytis rises from 4 % of bunches on 5 Sep to 15 % on 12 Sep (0.5 % to 2 % of the surface)`; where no more bunches have
 * it than before, the surface comes first.
 */
function riseText({ now, before, severityBefore }: RotCourse): string {
  const bunches = { of: 'bunches', was: before!.incidence, now: now.incidence }
  const surface =
    severityBefore === null || now.severity === null
      ? null
      : { of: 'the surface', was: severityBefore, now: now.severity }
  const [first, second] = surface && bunches.now <= bunches.was ? [surface, bunches] : [bunches, surface]
  const beside = second ? ` (${percent(second.was)} to ${percent(second.now)} of ${second.of})` : ''
  return `botrytis rises from ${percent(first.was)} of ${first.of} on ${shortDate(before!.date)} to ${percent(first.now)} on ${shortDate(now.date)}${beside}`
}
