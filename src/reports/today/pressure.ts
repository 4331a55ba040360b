import type { PressureDay } from '../../facts/disease/days.ts'
import { sitePressure } from '../../facts/disease/site.ts'
import { growingSpan } from '../../facts/heat/window.ts'
import { riskOf } from '../../facts/protection/gaps.ts'
import { neededSpan } from '../../facts/protection/needed.ts'
import { pressureOn } from '../../facts/protection/pressure-on.ts'
import { addDays, daysBetween, type IsoDate } from '../../records/date.ts'
import { shortDate, spokenDate } from '../../records/spoken-date.ts'
import type { Disease } from '../../records/target.ts'
import { hanging, type TodayFrom, type TodayItem, type Urgency } from './item.ts'

/** Days whose worst is told. Our own choice. */
export const RECENT_DAYS = 7
/** A station's export is told to be old after so many days. Our own choice. */
const OLD_DAYS = 2

const FOLLOWED = ['powdery', 'downy', 'botrytis', 'black-rot'] as const satisfies readonly Disease[]

/** How likely disease was of late, while a block needs cover; and infections whose oil spots are due about now. */
export function pressureItems(from: TodayFrom): TodayItem[] {
  const { ledger, season, asOf } = from
  const growing = growingSpan(ledger.vineyard, season)
  if (asOf < growing.from || asOf > growing.to) return []
  const blocks = hanging(from).map(({ id }) => id)
  const needing = FOLLOWED.filter((disease) =>
    blocks.some((block) => {
      const needed = neededSpan(ledger, { block, disease, season, start: growing.from, asOf })
      return asOf >= needed.from && asOf <= needed.to
    }),
  )
  if (needing.length === 0) return []
  const { days, incubations, why } = sitePressure(from)
  const base = { what: 'pressure', block: blocks[0]!, blocks, until: null } as const
  const last = days.findLast(({ powdery, downy }) => powdery.index !== null || downy.primary !== null)
  if (why !== null || !last) {
    const text = `Disease pressure is unknown: ${why ?? 'no hour of weather is in this span'}.`
    return [
      {
        ...base,
        urgency: 'plan',
        text,
        short: 'Disease pressure is unknown.',
        next: 'rowbook import weather FILE',
      },
    ]
  }
  const recent = days.filter(({ date }) => daysBetween(date, asOf) < RECENT_DAYS)
  const parts = needing.map((disease) => partOf(disease, recent))
  const old = daysBetween(last.date, asOf)
  const text = `Disease pressure within ${RECENT_DAYS} days: ${parts.map((part) => part.text).join(', ')}.`
  const items: TodayItem[] = [
    old > OLD_DAYS
      ? {
          ...base,
          urgency: 'soon',
          text: `${text} The weather ends ${spokenDate(last.date)}, ${old} days ago.`,
          short: `Disease pressure is not known since ${spokenDate(last.date)}: the weather ends there.`,
          next: 'rowbook import weather FILE',
        }
      : { ...base, urgency: worst(parts), text, short: shortOf(parts), next: 'rowbook pressure' },
  ]
  if (!needing.includes('downy')) return items
  return [...items, ...oilSpots(incubations, asOf).map((item) => ({ ...base, ...item }))]
}

/** `Pressure, last 7 days: powdery, downy high; botrytis low.` */
function shortOf(parts: readonly { disease: Disease; risk: string }[]): string {
  const levels = ['high', 'moderate', 'low', 'unknown'].flatMap((level) => {
    const own = parts.filter(({ risk }) => risk === level).map(({ disease }) => disease)
    return own.length === 0 ? [] : [`${own.join(', ')} ${level}`]
  })
  return `Pressure, last ${RECENT_DAYS} days: ${levels.join('; ')}.`
}

const NEXT: Readonly<Record<string, Urgency>> = {
  high: 'soon',
  moderate: 'plan',
  low: 'plan',
  unknown: 'plan',
}

function worst(parts: readonly { risk: string }[]): Urgency {
  return parts.some(({ risk }) => NEXT[risk] === 'soon') ? 'soon' : 'plan'
}

function partOf(disease: Disease, days: readonly PressureDay[]) {
  const seen = days.flatMap((day) => pressureOn(day, disease) ?? [])
  const index = seen.length === 0 ? null : Math.max(...seen)
  const risk = riskOf(index, disease) ?? 'unknown'
  const now = disease === 'powdery' && index !== null ? ` (${index} of 100)` : ''
  const infection = (disease === 'downy' || disease === 'black-rot') && risk === 'high'
  const last = infection ? days.findLast((day) => pressureOn(day, disease) === 1)?.date : undefined
  const on = last ? ` (infection possible on ${shortDate(last)})` : ''
  return { disease, risk, text: `${disease} ${risk}${now}${on}` }
}

/** Spells of infection whose oil spots can first be seen about now. */
function oilSpots(
  incubations: readonly { from: IsoDate; to: IsoDate; earliest: IsoDate | null; latest: IsoDate | null }[],
  asOf: IsoDate,
): Pick<TodayItem, 'urgency' | 'text' | 'short' | 'next'>[] {
  return incubations.flatMap(({ from, to, earliest, latest }) => {
    if (earliest === null || earliest > asOf || (latest !== null && latest < addDays(asOf, -RECENT_DAYS)))
      return []
    const rain = from === to ? `of ${shortDate(from)}` : `of ${shortDate(from)} to ${shortDate(to)}`
    const until = latest === null ? '' : ` to ${shortDate(latest)}`
    const text = `Oil spots of downy infections ${rain} are due from ${shortDate(earliest)}${until}: look for them.`
    const short = `Oil spots of downy are due from ${shortDate(earliest)}${until}: look for them.`
    return [{ urgency: 'soon', text, short, next: 'rowbook note scouting' }] as const
  })
}
