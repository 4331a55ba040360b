import { coversOf, type DiseaseCover } from '../../facts/protection/course.ts'
import { riskOf } from '../../facts/protection/gaps.ts'
import { addDays, type IsoDate } from '../../records/date.ts'
import { shortDate, spokenDate } from '../../records/spoken-date.ts'
import type { Disease } from '../../records/target.ts'
import {
  blockOptions,
  fewNamesOf,
  grouped,
  hanging,
  namesOf,
  type TodayFrom,
  type TodayItem,
} from './item.ts'
import { RECENT_DAYS } from './pressure.ts'

/** Cover that ends within so many days is told. */
const SOON_DAYS = 3

interface State {
  disease: Disease
  /** Where it is open: since when, and how likely the disease was of late. */
  open: { since: IsoDate; risk: 'low' | 'moderate' | 'high' | null } | null
  ends: IsoDate | null
}

/** Blocks that are without cover while they need it, or will be soon, and the pressure they stand under. */
export function coverItems(from: TodayFrom): TodayItem[] {
  const all = coversOf({ ...from, blocks: hanging(from) })
  const entries = all.flatMap(({ block, covers }) =>
    covers.flatMap((one) => {
      const about = stateOf(one, from.asOf)
      if (!about) return []
      return [{ block: block.id, key: `${about.disease} ${about.ends} ${about.open?.risk}`, about }]
    }),
  )
  const sinceOf = new Map(entries.map(({ block, about }) => [`${block} ${about.disease}`, about.open?.since]))
  return grouped(entries).map(({ blocks, about: { disease, open, ends } }): TodayItem => {
    const base = {
      what: 'cover',
      block: blocks[0]!,
      blocks,
      next: `rowbook mix${blockOptions(from, blocks)}`,
    } as const
    if (!open) {
      const when = ends === from.asOf ? 'today' : `on ${spokenDate(ends!)}`
      return {
        ...base,
        urgency: 'soon',
        until: ends,
        text: `Cover of ${namesOf(from, blocks)} against ${disease} ends ${when}.`,
        short: `Cover against ${disease} ends ${when}: ${fewNamesOf(from, blocks)}.`,
      }
    }
    const days = blocks.map((block) => sinceOf.get(`${block} ${disease}`)!)
    const since = blocks.map((block, i) => `${from.nameOf(block)} since ${shortDate(days[i]!)}`)
    const [first = from.asOf] = days.toSorted()
    const later = days.some((day) => day !== first) ? ' (some later)' : ''
    const pressure =
      open.risk === null ? 'pressure unknown' : `${open.risk} pressure within ${RECENT_DAYS} days`
    return {
      ...base,
      urgency: open.risk === 'low' ? 'plan' : open.risk === 'high' ? 'now' : 'soon',
      until: null,
      text: `No cover against ${disease}, ${pressure}: ${since.join(', ')}.`,
      short: `No ${disease} cover since ${shortDate(first)}${later}, pressure ${open.risk ?? 'unknown'}: ${fewNamesOf(from, blocks)}.`,
    }
  })
}

function stateOf({ disease, days, gaps }: DiseaseCover, asOf: IsoDate): State | null {
  const today = days.at(-1)
  if (today?.date !== asOf || !today.needed) return null
  if (today.covered === false) {
    const recent = days.slice(-RECENT_DAYS).flatMap(({ pressure }) => pressure ?? [])
    const risk = riskOf(recent.length === 0 ? null : Math.max(...recent), disease)
    const since = gaps.find((gap) => gap.from <= asOf && gap.to >= asOf)?.from ?? asOf
    return { disease, open: { since, risk }, ends: null }
  }
  if (!today.covered || today.daysLeft === null || today.daysLeft > SOON_DAYS) return null
  return { disease, open: null, ends: addDays(asOf, today.daysLeft) }
}
