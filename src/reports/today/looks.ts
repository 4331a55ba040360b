import { growingSpan } from '../../facts/heat/window.ts'
import { daysText, upperFirst } from '../../facts/sentences.ts'
import type { SeasonRecords } from '../../ledger/read/ledger.ts'
import { daysBetween } from '../../records/date.ts'
import { shortDate } from '../../records/spoken-date.ts'
import { blockOptions, fewNamesOf, grouped, namesOf, type TodayDraft, type TodayFrom } from './item.ts'

interface Looking {
  what: 'walk' | 'sample' | 'stage'
  kind: 'scouting' | 'samples' | 'stages'
  word: string
  note: string
  /** Days between two looks at a growth stage; null where none is asked for. */
  every: (stage: number) => number | null
}

/**
 * How often to look, by the growth stage. Scouting rounds every two weeks from budburst, weekly at flowering and set: AWRI
 * viti-note (read). Samples weekly while they ripen: Bradshaw 2018, University of Vermont (read). Growth stages
 * every two weeks: common practice, no source.
 */
const LOOKS: readonly Looking[] = [
  {
    what: 'walk',
    kind: 'scouting',
    word: 'scouting round',
    note: 'scouting',
    every: (stage) => (stage < 9 || stage >= 91 ? null : stage >= 60 && stage <= 71 ? 7 : 14),
  },
  {
    what: 'sample',
    kind: 'samples',
    word: 'sample',
    note: 'sample',
    every: (stage) => (stage >= 83 && stage < 91 ? 7 : null),
  },
  {
    what: 'stage',
    kind: 'stages',
    word: 'growth stage',
    note: 'stage',
    every: (stage) => (stage >= 1 && stage < 85 ? 14 : null),
  },
]

/** Scouting rounds, samples and stages that are overdue by the stage that a block is at, while vines grow. */
export function lookItems(from: TodayFrom, rounds: ReadonlySet<string>): TodayDraft[] {
  if (from.asOf > growingSpan(from.ledger.vineyard, from.season).to) return []
  return LOOKS.flatMap((look) => {
    const entries = from.hanging.flatMap(({ id }) => {
      if (look.what === 'walk' && rounds.has(id)) return []
      if (look.what === 'stage' && isSampled(from, id)) return []
      const late = lateness(from, { look, block: id })
      return late ? [{ block: id, key: `${late.last} ${late.every}`, about: late }] : []
    })
    return grouped(entries).map(({ blocks, about }): TodayDraft => {
      const { last, every, days } = about
      const when =
        last === null
          ? `no ${look.word} this season`
          : `last ${look.word} ${shortDate(last)}, ${daysText(days!)} ago (every ${every} days)`
      return {
        what: look.what,
        blocks,
        urgency: last === null || days! > 2 * every ? 'soon' : 'plan',
        text: `${upperFirst(namesOf(from, blocks))}: ${when}.`,
        short: `${upperFirst(fewNamesOf(from, blocks))}: ${last === null ? when : `last ${look.word} ${daysText(days!)} ago (every ${every} days)`}.`,
        next: `rowbook note ${look.note}${blockOptions(from, blocks.slice(0, 1))}`,
      }
    })
  })
}

/** Days for which samples tell how far a block is, so that no stage is asked for. Our own choice. */
const SAMPLED_DAYS = 14

function isSampled(from: TodayFrom, block: string): boolean {
  const last = lastOf(from, 'samples', block)
  return last !== undefined && daysBetween(last.date, from.asOf) <= SAMPLED_DAYS
}

/** Blocks with no stage recorded though vines grow by now: what is due there is unknown. */
export function stagelessItems(from: TodayFrom): TodayDraft[] {
  const { ledger, season, asOf } = from
  const growing = growingSpan(ledger.vineyard, season)
  if (asOf < growing.from || asOf > growing.to) return []
  const blocks = from.hanging.filter(({ id }) => lastOf(from, 'stages', id) === undefined).map(({ id }) => id)
  if (blocks.length === 0) return []
  return [
    {
      what: 'stage',
      blocks,
      urgency: 'soon',
      text: `${upperFirst(namesOf(from, blocks))}: no growth stage this season, so danger and scouting follow the usual calendar.`,
      short: `${upperFirst(fewNamesOf(from, blocks))}: no growth stage this season.`,
      next: `rowbook note stage${blockOptions(from, blocks)}`,
    },
  ]
}

/** The newest entry of a kind of a block in this season. */
const lastOf = <K extends Looking['kind']>({ ledger, season, asOf }: TodayFrom, kind: K, block: string) =>
  (ledger[kind] as SeasonRecords[K]).findLast(
    (entry) => entry.block === block && entry.season === season && entry.date <= asOf,
  )

function lateness(from: TodayFrom, { look, block }: { look: Looking; block: string }) {
  const stage = lastOf(from, 'stages', block)?.stage
  if (stage === undefined) return null
  const every = look.every(stage)
  if (every === null) return null
  const last = lastOf(from, look.kind, block)?.date ?? null
  const days = last === null ? null : daysBetween(last, from.asOf)
  return days !== null && days <= every ? null : { last, days, every }
}
