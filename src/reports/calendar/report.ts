import { type CalendarEvent, uidOf } from '../../facts/calendar-event.ts'
import { type DangerJudge, dangerJudge } from '../../facts/danger/danger.ts'
import { findSentence, followUps } from '../../facts/danger/follow-up.ts'
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
import { addDays, type IsoDate } from '../../records/date.ts'
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

function nameIn({ ledger }: ReportInput) {
  return (id: string) => ledger.blocks.get(id)?.name ?? id
}

function seasonSprays({ ledger, season, asOf, blocks }: ReportInput): SprayEntry[] {
  const wanted = new Set(blocks.map(({ id }) => id))
  return ledger.sprays.filter(
    (spray) => spray.season === season && spray.date <= asOf && spray.blocks.some((id) => wanted.has(id)),
  )
}

function keepOuts(input: ReportInput, missing: string[]): CalendarEvent[] {
  const { ledger } = input
  const zone = ledger.vineyard.timezone
  const seen = new Map<string, number>()
  return seasonSprays(input).flatMap((spray) => {
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
    const blocks = spray.blocks.map(nameIn(input))
    return [
      {
        uid: uidOf(input.ledger.vineyard, ['re-entry', file, String(number)]),
        kind: 're-entry' as const,
        blocks: spray.blocks,
        start: startOf(spray, zone),
        end: out.over.iso,
        allDay: false,
        title: `Keep out of ${blocks.join(', ')} until ${briefEnd(out.over)}`,
        detail: keepOutDetail(spray, out),
      },
    ]
  })
}

/** The end, for a title: the event has its own hours, and the detail has the day. */
const briefEnd = ({ date, minutes, hours, cleared }: ReEntryEnd) => {
  if (hours === null && !cleared) return 'the spray is dry'
  return minutes === 0 ? spokenTime(date, minutes) : clockText(minutes)
}

const keepOutDetail = (spray: SprayEntry, { over }: KeepOut) =>
  `Sprayed ${spokenDate(spray.date)}; ${whyKeptOut(over!)}${over!.cleared || over!.hours === null ? ',' : ' from the end of spraying, so'} until ${untilText(over!)}.`

function startOf(spray: SprayEntry, zone: string): string {
  return new Date(instantOf(spray.date, spray.time?.start ?? 0, zone)).toISOString()
}

function waits(input: ReportInput, missing: string[]): CalendarEvent[] {
  const { ledger, season, asOf, blocks } = input
  return blocks.flatMap((block) => {
    const legal = legalFrom(ledger, spraysOf(ledger, { block: block.id, season, asOf }))
    if (legal.unknown.length > 0)
      missing.push(
        `picking after ${productNames(ledger, legal.unknown)}: products/${legal.unknown[0]}.yaml gives no \`before_harvest\``,
      )
    if (legal.overLabel.length > 0) missing.push(`picking: ${overLabelSentence(legal.overLabel)}`)
    if (!legal.date || !legal.by) return []
    const unknown = productNames(ledger, legal.unknown)
    return [
      wholeDays({
        uid: uidOf(input.ledger.vineyard, ['before-harvest', block.id, String(season)]),
        kind: 'before-harvest',
        blocks: [block.id],
        start: legal.date,
        end: legal.date,
        title:
          legal.unknown.length > 0
            ? `${block.name}: do not pick yet, PHI of ${unknown} unknown`
            : `${block.name}: pre-harvest interval (PHI) over`,
        detail: `${legal.by.cleared ? 'Cleared after a spray over the label' : 'By the pre-harvest interval (PHI)'}: ${waitText(legal.by)}.${unknown && ` The PHI of ${unknown} is not recorded: read the label.`}`,
      }),
    ]
  })
}

function coverEnds(input: ReportInput, judge: DangerJudge): CalendarEvent[] {
  const { asOf, season } = input
  const name = nameIn(input)
  const all = coversOf(input, { judge }).flatMap(({ block, covers }) =>
    covers.map((cover) => ({ block: block.id, cover })),
  )
  return all.flatMap(({ block, cover }) => {
    const { disease, on } = cover
    const today = on(asOf)
    if (!today?.covered || today.daysLeft === null || cover.needed.to < asOf) return []
    const end = addDays(asOf, today.daysLeft)
    return [
      wholeDays({
        uid: uidOf(input.ledger.vineyard, ['cover', block, disease, String(season)]),
        kind: 'cover',
        blocks: [block],
        start: end,
        end,
        title: `${name(block)}: protection against ${diseaseWord(disease)} ends`,
        detail: `By ${today.by && productNames(input.ledger, [today.by])}. As of ${spokenDate(asOf)}; rain may end it sooner.`,
      }),
    ]
  })
}

function windows(input: ReportInput): CalendarEvent[] {
  const { season } = input
  return input.blocks.flatMap((block) => {
    const window = windowOf(block, input)
    const { earliest, likely, latest, target, picked } = window
    const later = laterText(window)
    if (picked || !earliest || !likely) return []
    return [
      wholeDays({
        uid: uidOf(input.ledger.vineyard, ['window', block.id, String(season)]),
        kind: 'window',
        blocks: [block.id],
        start: earliest,
        end: latest ?? likely,
        title: `${block.name} may reach ${target} Brix`,
        detail: `Most likely ${spokenDate(likely)}. ${latest ? 'It falls within these days 9 times in 10' : 'It has no latest day, since sugar may not get there'}${later ? `; ${later}` : ''}. As of ${spokenDate(input.asOf)}.`,
      }),
    ]
  })
}

/** Scouting rounds after finds and their treatments. */
function rounds(input: ReportInput, judge: DangerJudge): CalendarEvent[] {
  return roundsDue(input, judge).map(({ block, date, diseases, detail }) =>
    wholeDays({
      uid: uidOf(input.ledger.vineyard, ['scouting', block, date]),
      kind: 'scouting',
      blocks: [block],
      start: date,
      end: date,
      title: `${nameIn(input)(block)}: scout for ${listed(diseases.map(diseaseWord))}`,
      detail,
    }),
  )
}

const wholeDays = (event: Omit<CalendarEvent, 'allDay'>): CalendarEvent => ({ ...event, allDay: true })

/** A scouting round due after a find. */
interface Round {
  block: string
  date: IsoDate
  diseases: string[]
  detail: string
}

/** The rounds due after finds and treatments: one for each block, on the earliest due day. */
function roundsDue(input: ReportInput, judge: DangerJudge): Round[] {
  const due = followUps(input, judge).filter(({ nextRound }) => nextRound !== null)
  return input.blocks.flatMap(({ id }) => {
    const own = due.filter(({ block }) => block === id)
    const date = own.map(({ nextRound }) => nextRound!).sort()[0]
    if (date === undefined) return []
    const detail = own.map((one) => {
      const last = one.treated.at(-1)
      return `${findSentence(one)}; ${last ? `treated ${spokenDate(last.date)}` : 'not treated yet'}`
    })
    return [
      {
        block: id,
        date,
        diseases: [...new Set(own.map(({ disease }) => disease))],
        detail: asSentences(detail),
      },
    ]
  })
}
