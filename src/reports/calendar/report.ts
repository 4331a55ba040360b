import { type CalendarEvent, uidOf } from '../../facts/calendar-event.ts'
import { type DangerJudge, dangerJudge } from '../../facts/danger/danger.ts'
import { findSentence, followUps } from '../../facts/danger/follow-up.ts'
import { inPartText } from '../../facts/hanging.ts'
import { productNames } from '../../facts/names.ts'
import { coversOf } from '../../facts/protection/course.ts'
import { CAUTION, makeReport, type Report, type ReportInput } from '../../facts/report.ts'
import { asSentences, listed } from '../../facts/sentences.ts'
import { legalFrom, spraysOf, waitText } from '../../facts/spraying/legal-from.ts'
import { overLabelSentence } from '../../facts/spraying/over-label.ts'
import {
  type KeepOut,
  keepOutOf,
  type ReEntryEnd,
  untilText,
  whyKeptOut,
} from '../../facts/spraying/re-entry.ts'
import { windowOf } from '../../facts/window/block-window.ts'
import { laterText } from '../../facts/window/sentences.ts'
import type { SprayEntry } from '../../ledger/read/ledger.ts'
import { addDays } from '../../records/date.ts'
import { diseaseWord } from '../../records/disease.ts'
import { spokenDate, spokenTime } from '../../records/spoken-date.ts'
import { clockText } from '../../records/typed/time-range.ts'
import { instantOf } from '../../records/zone.ts'

interface CalendarData {
  events: CalendarEvent[]
  /** Events that the calendar should have but can't, in words. */
  missing: string[]
}

interface CalendarOptions {
  /** Also events that are over on the day of the report. */
  past?: boolean
}

/** Calendar events from the sprays and the ripening of a season. */
export function calendar(input: ReportInput, { past = false }: CalendarOptions = {}): Report<CalendarData> {
  const missing: string[] = []
  const judge = dangerJudge(input)
  const all = [
    ...keepOuts(input, missing),
    ...waits(input, missing),
    ...coverEnds(input, judge),
    ...windows(input),
    ...rounds(input, judge),
  ]
  const events = all
    .filter(({ end }) => past || end.slice(0, 10) >= input.asOf)
    .sort((a, b) => (a.start < b.start ? -1 : a.start > b.start ? 1 : a.uid < b.uid ? -1 : 1))
  return makeReport('calendar', input, {
    data: { events, missing: [...new Set(missing)] },
    cautions: [CAUTION.clearance, CAUTION.estimate],
  })
}

const nameOf = ({ ledger }: ReportInput, id: string) => ledger.blocks.get(id)?.name ?? id

/** An event of whole days in one block; `key` tells it from others of its kind there. */
const wholeDays = (
  { ledger }: ReportInput,
  {
    block,
    key,
    kind,
    ...event
  }: Omit<CalendarEvent, 'uid' | 'blocks' | 'allDay'> & { block: string; key: readonly string[] },
): CalendarEvent => ({
  uid: uidOf(ledger.vineyard, [kind, block, ...key]),
  kind,
  blocks: [block],
  ...event,
  allDay: true,
})

function keepOuts(input: ReportInput, missing: string[]): CalendarEvent[] {
  const { ledger, season, asOf } = input
  const wanted = new Set(input.blocks.map(({ id }) => id))
  const seen = new Map<string, number>()
  return ledger.sprays.flatMap((spray) => {
    if (spray.season !== season || spray.date > asOf || !spray.blocks.some((id) => wanted.has(id))) return []
    const { file } = spray.source.at
    const number = (seen.get(file) ?? 0) + 1
    seen.set(file, number)
    const out = keepOutOf(ledger, spray)
    if (out.unknown.length > 0)
      missing.push(
        `re-entry after ${productNames(ledger, out.unknown)}: products/${out.unknown[0]}.yaml gives no \`re_entry\``,
      )
    if (out.overLabel.length > 0) missing.push(`re-entry: ${overLabelSentence(out.overLabel)}`)
    if (!out.over) return []
    const blocks = spray.blocks.map((id) => nameOf(input, id))
    const start = instantOf(spray.date, spray.time?.start ?? 0, ledger.vineyard.timezone)
    return {
      uid: uidOf(ledger.vineyard, ['re-entry', file, String(number)]),
      kind: 're-entry' as const,
      blocks: spray.blocks,
      start: new Date(start).toISOString(),
      end: out.over.iso,
      allDay: false,
      title: `Keep out of ${blocks.join(', ')} until ${briefEnd(out.over)}`,
      detail: keepOutDetail(spray, out),
    }
  })
}

/** The end, for a title: the event has its own hours, and the detail has the day. */
const briefEnd = ({ date, minutes, hours, cleared }: ReEntryEnd) => {
  if (hours === null && !cleared) return 'the spray is dry'
  return minutes === 0 ? spokenTime(date, minutes) : clockText(minutes)
}

const keepOutDetail = (spray: SprayEntry, { over }: KeepOut) =>
  `Sprayed ${spokenDate(spray.date)}; ${whyKeptOut(over!)}${over!.cleared || over!.hours === null ? ',' : ' from the end of spraying, so'} until ${untilText(over!)}.`

function waits(input: ReportInput, missing: string[]): CalendarEvent[] {
  const { ledger, season, asOf } = input
  return input.blocks.flatMap(({ id: block, name }) => {
    const legal = legalFrom(ledger, spraysOf(ledger, { block, season, asOf }))
    const unknown = productNames(ledger, legal.unknown)
    if (unknown)
      missing.push(`picking after ${unknown}: products/${legal.unknown[0]}.yaml gives no \`before_harvest\``)
    if (legal.overLabel.length > 0) missing.push(`picking: ${overLabelSentence(legal.overLabel)}`)
    if (!legal.date || !legal.by) return []
    return wholeDays(input, {
      kind: 'before-harvest',
      block,
      key: [String(season)],
      start: legal.date,
      end: legal.date,
      title: unknown
        ? `${name}: do not pick yet, PHI of ${unknown} unknown`
        : `${name}: pre-harvest interval (PHI) over`,
      detail: `${legal.by.cleared ? 'Cleared after a spray over the label' : 'By the pre-harvest interval (PHI)'}: ${waitText(legal.by)}.${unknown && ` The PHI of ${unknown} is not recorded: read the label.`}`,
    })
  })
}

function coverEnds(input: ReportInput, judge: DangerJudge): CalendarEvent[] {
  const { ledger, asOf, season } = input
  return coversOf(input, { judge }).flatMap(({ block: { id: block }, covers }) =>
    covers.flatMap(({ disease, needed, on }) => {
      const today = on(asOf)
      if (!today?.covered || today.daysLeft === null || needed.to < asOf) return []
      const end = addDays(asOf, today.daysLeft)
      return wholeDays(input, {
        kind: 'cover',
        block,
        key: [disease, String(season)],
        start: end,
        end,
        title: `${nameOf(input, block)}: protection against ${diseaseWord(disease)} ends`,
        detail: `By ${today.by && productNames(ledger, [today.by])}. As of ${spokenDate(asOf)}; rain may end it sooner.`,
      })
    }),
  )
}

function windows(input: ReportInput): CalendarEvent[] {
  return input.blocks.flatMap((block) => {
    const window = windowOf(block, input)
    const { earliest, likely, latest, target, picked } = window
    const later = laterText(window)
    const inPart = inPartText(input.ledger, { ...input, block: block.id })
    if (picked || !earliest || !likely) return []
    return wholeDays(input, {
      kind: 'window',
      block: block.id,
      key: [String(input.season)],
      start: earliest,
      end: latest ?? likely,
      title: `${block.name} may reach ${target} Brix`,
      detail: `Most likely ${spokenDate(likely)}. ${latest ? 'It falls within these days 9 times in 10' : 'It has no latest day, since sugar may not get there'}${later ? `; ${later}` : ''}. ${inPart ? `${inPart} ` : ''}As of ${spokenDate(input.asOf)}.`,
    })
  })
}

/** The scouting rounds due after finds and treatments: one for each block, on the earliest due day. */
function rounds(input: ReportInput, judge: DangerJudge): CalendarEvent[] {
  const due = followUps(input, judge).filter(({ nextRound }) => nextRound !== null)
  return input.blocks.flatMap(({ id: block, name }) => {
    const own = due.filter((one) => one.block === block)
    const date = own.map(({ nextRound }) => nextRound!).sort()[0]
    if (date === undefined) return []
    const detail = own.map((one) => {
      const last = one.treated.at(-1)
      return `${findSentence(one)}; ${last ? `treated ${spokenDate(last.date)}` : 'not treated yet'}`
    })
    const diseases = new Set(own.map(({ disease }) => diseaseWord(disease)))
    return wholeDays(input, {
      kind: 'scouting',
      block,
      key: [date],
      start: date,
      end: date,
      title: `${name}: scout for ${listed([...diseases])}`,
      detail: asSentences(detail),
    })
  })
}
