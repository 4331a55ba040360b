import { type Danger, graver } from '../../facts/danger/danger.ts'
import { LAST_SEASON } from '../../facts/danger/winter.ts'
import { growingSpan } from '../../facts/heat/window.ts'
import { upperFirst } from '../../facts/sentences.ts'
import { weatherOf } from '../../facts/weather/hours.ts'
import { readingAt } from '../../ledger/weather/table.ts'
import { addDays, dayOf, daysBetween, type IsoDate, isoDate, latestOf } from '../../records/date.ts'
import { type Disease, diseaseWord } from '../../records/disease.ts'
import { shortDate, shortSpan, spokenDate } from '../../records/spoken-date.ts'
import { clockItems } from './clock.ts'
import { blocksOf, namesOf, type TodayDraft, type TodayFrom } from './item.ts'
import { NOTE_WEATHER } from './one-ask.ts'

/** A station's export is called old after so many days. Our own choice. */
const OLD_DAYS = 2
/** Days back in which symptoms that are due are reported. Our own choice. */
const DUE_DAYS = 7

/** The danger of each disease today in a line, infections that can still be cured, and symptoms that are due. */
export function dangerItems(from: TodayFrom, isTold: boolean): TodayDraft[] {
  const { ledger, season, asOf } = from
  const growing = growingSpan(ledger.vineyard, season)
  if (asOf < growing.from || asOf > growing.to || from.hanging.length === 0) return []
  return [...summary(from, isTold), ...clockItems(from), ...oilSpots(from)]
}

function summary(from: TodayFrom, isTold: boolean): TodayDraft[] {
  const { ledger, season, asOf, judge } = from
  const hasStation = ledger.stations.has(season)
  const weatherNext = hasStation ? 'rowbook import weather FILE' : NOTE_WEATHER
  const blocks = from.hanging.map(({ id }) => id)
  const open = judge.diseases.flatMap((disease) => {
    const all = blocks
      .map((block) => ({ block, danger: judge.on(block, disease, asOf) as Danger }))
      .filter(({ danger }) => danger.tissue !== null)
    const dangers = all.map(({ danger }) => danger)
    return all.length === 0 ? [] : [{ disease, all, danger: dangers.reduce(graver) }]
  })
  if (open.length === 0) return []
  const { days, why } = judge.site
  const last = days.findLast(({ powdery, downy }) => powdery.index !== null || downy.primary !== null)?.date
  const levels = open.map(({ disease, danger }) => `${diseaseWord(disease)} ${danger.level}`).join(', ')
  const reasons = open.flatMap(({ disease, danger }) =>
    danger.level === 'low'
      ? []
      : danger.reasons.slice(0, 1).map((reason) => `${diseaseWord(disease)}: ${reason}`),
  )
  const lacking = (text: string, short: string): TodayDraft[] => [
    { what: 'pressure', blocks, urgency: 'soon', text, short, next: weatherNext, reasons },
  ]
  const text = [`Danger today: ${levels}.`, ...lastSeason(from, open)].join(' ')
  if (last === undefined)
    return lacking(
      `${text} No weather this season: ${why ?? 'none recorded'}.`,
      hasStation
        ? 'No weather recorded: disease danger goes by growth stage alone.'
        : "No weather yet: note the day's minimum, maximum and rain.",
    )
  const old = daysBetween(last, asOf)
  const read = weatherEnd(from)
  const lack =
    read !== null && daysBetween(last, read) > OLD_DAYS
      ? `Hours of weather are missing since ${spokenDate(last)}`
      : `The weather ends ${spokenDate(last)}, ${old} days ago`
  if (old > OLD_DAYS)
    return lacking(
      `${text} ${lack}.`,
      `${lack}: ${hasStation ? "import the station's file" : 'note the days since'}.`,
    )
  // Where items tell of blocks in danger, the line would only repeat them.
  return isTold
    ? []
    : [{ what: 'pressure', blocks, urgency: 'plan', text, next: 'rowbook pressure', reasons }]
}

/** `Powdery was found in Brook Rows at the end of last season.`, for each disease that an early season starts with. */
const lastSeason = (
  from: TodayFrom,
  open: readonly { disease: Disease; all: readonly { block: string; danger: Danger }[] }[],
): string[] =>
  open.flatMap(({ disease, all }) => {
    const began = all.filter(({ danger }) => danger.reasons.some((one) => one.startsWith(LAST_SEASON)))
    const names = namesOf(
      from,
      began.map(({ block }) => block),
    )
    return began.length === 0
      ? []
      : [`${upperFirst(diseaseWord(disease))} was found at the end of last season in ${names}.`]
  })

/** Spells of infection on unprotected vines whose oil spots can first be seen about now, in one line. */
function oilSpots(from: TodayFrom): TodayDraft[] {
  const { asOf, judge } = from
  if (!judge.diseases.includes('downy')) return []
  const due = judge.site.incubations.flatMap(({ from: start, to, earliest, latest }) => {
    if (earliest === null || earliest > asOf || (latest !== null && latest < addDays(asOf, -DUE_DAYS)))
      return []
    const blocks = from.covers.flatMap(({ block, cover }) => {
      const isSeen = from.ledger.scouting.some(
        (round) => round.block === block && round.date >= earliest && round.date <= asOf && round.found.downy,
      )
      if (cover.disease !== 'downy' || isSeen) return []
      const isOpen = cover.days.some(
        ({ date, needed, covered }) => date >= start && date <= to && needed && covered !== true,
      )
      return isOpen ? [block] : []
    })
    return blocks.length === 0 ? [] : [{ start, to, earliest, latest, blocks }]
  })
  if (due.length === 0) return []
  const blocks = blocksOf(due)
  const latest = latestOf(due.flatMap((one) => one.latest ?? []))
  const until = latest ? ` to ${shortDate(latest)}` : ''
  const earliest = due.map((one) => one.earliest).sort()[0]!
  const rain = due.map(({ start, to }) => shortSpan(start, to)).join(', ')
  return [
    {
      what: 'walk',
      blocks,
      disease: 'downy',
      urgency: 'soon',
      until: latest ?? null,
      text: `Downy: oil spots of infections on ${rain} are due ${shortDate(earliest)}${until} in ${namesOf(from, blocks)}, unprotected then. Look for them.`,
      short: `Downy oil spots are due ${shortDate(earliest)}${until}: look for them.`,
      next: `rowbook note scouting --block ${blocks[0]}`,
      reasons: due.map(({ start, to }) => `infection possible on ${shortSpan(start, to)}`),
    },
  ]
}

/** The last day with a reading of rain; null where none is. */
function weatherEnd({ ledger, season, asOf }: TodayFrom): IsoDate | null {
  const weather = weatherOf(ledger, season)
  const end = dayOf(asOf)
  const byDay = weather.days.findLast(
    ({ day, rain, byHand }) => day <= end && rain !== null && (byHand || weather.form === 'daily'),
  )
  const { table } = weather.station.hours
  let at = table.length - 1
  while (at >= 0 && (table.day[at]! > end || readingAt(table, 'rain', at) === null)) at--
  const last = Math.max(byDay?.day ?? -Infinity, at < 0 ? -Infinity : table.day[at]!)
  return last === -Infinity ? null : isoDate(last)
}
