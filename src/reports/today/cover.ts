import type { Danger } from '../../facts/danger/danger.ts'
import { enoughFirst } from '../../facts/danger/in-stock.ts'
import { mixCommand } from '../../facts/danger/mix-command.ts'
import { bestFirst, doubtsOf, type Remedy, SULPHUR_IN_HEAT, shedText } from '../../facts/danger/remedies.ts'
import { SPOTS_LATE } from '../../facts/danger/tissue.ts'
import { groupedBy } from '../../facts/judged.ts'
import { partsOn } from '../../facts/protection/parts.ts'
import { asSentences, listed, notKnown, upperFirst } from '../../facts/sentences.ts'
import { ASK_FIRST, HOW_TO_CLEAR, standsOverLabel } from '../../facts/spraying/re-entry.ts'
import { addDays, dayOf } from '../../records/date.ts'
import { diseaseWord } from '../../records/disease.ts'
import { shortDate, spokenDate } from '../../records/spoken-date.ts'
import { beforeRain } from './ahead.ts'
import {
  blocksOf,
  diseaseOf,
  fewNamesOf,
  grouped,
  harvestNear,
  nameOf,
  namesOf,
  remediesToday,
  type TodayDraft,
  type TodayFrom,
  type Urgency,
} from './item.ts'

/** Protection that ends within so many days is reported. Our own choice. */
const SOON_DAYS = 3

type Open = NonNullable<ReturnType<typeof openState>>

/** Blocks without protection while a disease endangers them, and protection that ends soon. */
export function coverItems(from: TodayFrom, told: ReadonlySet<string>): TodayDraft[] {
  const open = from.covers
    .filter(({ block, cover }) => !told.has(`${block} ${cover.disease}`))
    .flatMap((one) => openState(from, one) ?? [])
  const asked = groupedBy(
    open.filter(({ overLabel }) => overLabel),
    ({ block }) => block,
  )
  const alike = groupedBy(
    open.filter(({ overLabel }) => !overLabel),
    ({ key }) => key,
  )
  const groups = [...alike.values()].flatMap((group) => {
    const common = usableByAll(
      from,
      group.map(({ remedies }) => remedies),
    )
    const { harvest, remedies } = group[0]!
    const isOne = harvest || mayAny(common) || !mayAny(remedies)
    return isOne ? [group.map((one) => ({ ...one, remedies: common }))] : group.map((one) => [one])
  })
  return [
    ...[...asked.values()].map((own) => askItem(from, own)),
    ...groups.map((group) => openItem(from, group)),
    ...endItems(from),
  ]
}

const mayAny = (remedies: readonly Remedy[]) => remedies.some(({ may }) => may)

/** The products, those that may be used on every one of the blocks first. */
function usableByAll({ ledger }: TodayFrom, lists: readonly Remedy[][]): Remedy[] {
  const joined = lists[0]!.map((one) => {
    const same = lists.flatMap((list) => list.find(({ product }) => product === one.product) ?? [])
    return same.find(({ may }) => !may) ?? same.find(({ unread }) => unread) ?? one
  })
  return joined.toSorted(bestFirst(ledger))
}

/** A block that a disease endangers while it isn't protected; null where there is nothing to tell. */
function openState(from: TodayFrom, { block, cover, today }: TodayFrom['covers'][number]) {
  const { disease } = cover
  const { asOf } = from
  if (!today?.needed || today.covered === true) return null
  const { danger } = today
  if (danger.level === 'low') return null
  const harvest = harvestNear(from, block)
  // Near harvest a spray starts a new waiting time, so only rot still matters for the day of picking.
  if (harvest && (disease !== 'botrytis' || danger.level !== 'high')) return null
  const remedies = remediesToday(from, block, disease)
  if (danger.level === 'unknown' && remedies.length === 0 && isDryByDays(from)) return null
  const since = today.covered === null ? null : (cover.gaps.find(({ to }) => to >= asOf)?.from ?? asOf)
  const parts = today.inPart ? partsOn(asOf, cover.sprays) : []
  return {
    block,
    disease,
    danger,
    remedies,
    /** Unprotected since; null where unknown. */
    since,
    /** What of the block is protected though the whole isn't: `rows 8 to 9 until 18 Jul`. */
    parts,
    /** Whether the fruit may be picked by now, so that no spray is recommended. */
    harvest,
    /** Whether a spray here was over the label, so that the adviser is asked before any other. */
    overLabel: standsOverLabel(from, block),
    /** Blocks with the same key are told in one item. */
    key: [disease, danger.level, since === null, harvest, mayAny(remedies), ...parts].join(' '),
  }
}

/** Rain on so many of the last seven days is reported even where hours of wetness can't be known. Our own choice. */
const WET_DAYS = 3

/**
 * Whether only days of weather are known, and the week was mostly dry. A danger that can't be known then, and that
 * nothing in the ledger would treat, is left to `cover` and `pressure`, and isn't asked about every day.
 */
function isDryByDays({ asOf, judge }: TodayFrom): boolean {
  const week = judge.site.days.filter(({ date }) => date <= asOf && date > addDays(asOf, -7))
  const rain = week.flatMap(({ daily }) => daily?.rain ?? [])
  return rain.length >= 5 && rain.filter((mm) => mm > 0).length < WET_DAYS
}

const URGENCY: Record<Danger['level'], Urgency> = {
  high: 'now',
  moderate: 'soon',
  unknown: 'soon',
  low: 'plan',
}

function openItem(from: TodayFrom, group: readonly Open[]): TodayDraft {
  const { disease, danger, harvest, parts } = group[0]!
  const { level, reasons, unknown } = danger
  const blocks = group.map(({ block }) => block)
  const remedies = enoughFirst(from, group[0]!.remedies, { blocks, disease })
  const late =
    danger.tissue === 'leaf' &&
    blocks.every((block) => from.judge.growth(block).veraisonOn(dayOf(from.asOf)) === 'after')
  const since = group.flatMap((one) => one.since ?? [])
  const [first] = since.toSorted()
  const later = since.some((day) => day !== first) ? ' (some later)' : ''
  // Botrytis sprays are timed, so that a day since when is no matter there.
  const sinceText =
    disease === 'botrytis' || !first
      ? ''
      : first === from.asOf
        ? ' from today'
        : ` since ${shortDate(first)}${later}`
  const part = parts.length > 0 ? `protected in part only (${listed(parts)}), else ` : ''
  const state = first ? `${part}unprotected${sinceText}` : 'protection unknown'
  // A reason that doesn't hold in every block names its block.
  const said = reasons.map((reason) =>
    group.every((one) => one.danger.reasons.includes(reason))
      ? reason
      : `${nameOf(from, blocks[0]!)}: ${reason}`,
  )
  const told = said.filter((reason, at) => at < 2 || (late && reason.includes(SPOTS_LATE)))
  const why = asSentences([...told, ...notKnown(unknown.slice(0, 1))])
  const may = harvest ? undefined : remedies.find((one) => one.may)
  const tank = may && { products: [may.product], diseases: [disease] }
  const what = `${upperFirst(diseaseWord(disease))}, danger ${level}`
  const action = harvest
    ? 'Pick sooner or sort; no spray this close to harvest.'
    : `${shedText(remedies, disease)}${beforeRain(from, remedies, disease)}`
  return {
    what: 'cover',
    blocks,
    disease,
    // After veraison leaves alone are at stake, and a late spray has to be weighed: common practice, no source.
    urgency: first && !late ? URGENCY[level] : 'soon',
    text: `${what}: ${namesOf(from, blocks)} ${state}. ${why} ${action}`,
    short: `${what.replace(',', '')}, ${state}: ${fewNamesOf(from, blocks)}. ${asSentences(said.slice(0, 1)) || why}${harvest ? ' Pick sooner or sort: no spray this close to harvest.' : shortAction(remedies)}`,
    reasons,
    level,
    tank,
    next: harvest
      ? `rowbook ready --block ${blocks[0]}`
      : tank
        ? mixCommand(from, { blocks, ...tank })
        : `rowbook cover --for ${disease} --block ${blocks[0]}`,
  }
}

/** What the shed holds, in a few words: nothing, nothing that may be used, or sulphur in heat; else empty. */
function shortAction(remedies: readonly Remedy[]): string {
  const [first, ...others] = remedies
  if (!first) return ' No product recorded.'
  const hot = first.facts.find((fact) => fact.endsWith(SULPHUR_IN_HEAT))
  const doubts = doubtsOf(first).map((doubt) => ` ${first.name}: ${doubt}.`)
  if (first.may) return [...(hot ? [` ${upperFirst(hot)}.`] : []), ...doubts].join('')
  return ` Nothing in the shed may be used now${others.length === 0 ? `: ${first.against[0]}` : ''}.`
}

/** A block in danger that was sprayed over the label: no spray before somebody who may decide has been asked. */
function askItem(from: TodayFrom, open: readonly Open[]): TodayDraft {
  const levels = open.map(({ disease, danger }) => `${diseaseWord(disease)} ${danger.level}`).join(', ')
  const state = open.every(({ since }) => since === null)
    ? 'protection unknown'
    : open.some(({ parts }) => parts.length > 0)
      ? 'protected in part only'
      : 'unprotected'
  const { block } = open[0]!
  return {
    what: 'cover',
    blocks: [block],
    disease: diseaseOf(open),
    urgency: 'now',
    text: `${nameOf(from, block)} ${state}, danger ${levels}. ${ASK_FIRST}`,
    reasons: open.flatMap(({ danger }) => danger.reasons),
    next: HOW_TO_CLEAR,
  }
}

/** Protection that ends within days, the earliest first, in one item. */
function endItems(from: TodayFrom): TodayDraft[] {
  const { asOf } = from
  const ends = from.covers.flatMap(({ block, cover: { disease }, today }) => {
    if (!today?.needed || !today.covered || today.danger.level === 'low') return []
    const left = today.daysLeft
    if (left === null || left > SOON_DAYS || harvestNear(from, block)) return []
    const end = addDays(asOf, left)
    return [{ block, key: `${end} ${disease}`, about: { end, disease } }]
  })
  const groups = grouped(ends).toSorted((a, b) => (a.about.end < b.about.end ? -1 : 1))
  const [first] = groups
  if (!first) return []
  const said = (names: typeof namesOf) =>
    groups.map(({ blocks, about: { end, disease } }) => {
      const day = end === asOf ? 'today' : spokenDate(end)
      return `${diseaseWord(disease)} ${day} (${names(from, blocks)})`
    })
  return [
    {
      what: 'cover',
      blocks: blocksOf(groups),
      disease: diseaseOf(groups.map(({ about }) => about)),
      urgency: 'soon',
      until: first.about.end,
      text: `Protection ends: ${said(namesOf).join(', ')}.`,
      short: `Protection ends: ${said(fewNamesOf).join(', ')}.`,
      next: `rowbook cover --for ${first.about.disease}`,
    },
  ]
}
