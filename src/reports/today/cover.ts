import type { Danger } from '../../facts/danger/danger.ts'
import { mixCommand } from '../../facts/danger/mix-command.ts'
import { type Remedy, SULPHUR_IN_HEAT, shedText } from '../../facts/danger/remedies.ts'
import { SPOTS_LATE } from '../../facts/danger/tissue.ts'
import { groupedBy } from '../../facts/judged.ts'
import type { DiseaseCover } from '../../facts/protection/course.ts'
import { partsOn } from '../../facts/protection/parts.ts'
import { asSentences, listed, notKnown, upperFirst } from '../../facts/sentences.ts'
import { ASK_FIRST, HOW_TO_CLEAR, standsOverLabel } from '../../facts/spraying/stands-over-label.ts'
import { addDays, dayOf, type IsoDate } from '../../records/date.ts'
import { type Disease, diseaseWord } from '../../records/disease.ts'
import { shortDate, spokenDate } from '../../records/spoken-date.ts'
import { beforeRain } from './ahead.ts'
import {
  fewNamesOf,
  grouped,
  harvestNear,
  namesOf,
  on,
  remediesToday,
  type TodayDraft,
  type TodayFrom,
  type Urgency,
} from './item.ts'

/** Protection that ends within so many days is reported. Our own choice. */
const SOON_DAYS = 3

interface Open {
  disease: Disease
  /** Unprotected since; null where unknown. */
  since: IsoDate | null
  /** What of the block is protected though the whole isn't: `rows 8 to 9 until 18 Jul`. */
  parts: string[]
  danger: Danger
  remedies: Remedy[]
  /** Whether the fruit may be picked by now, so that no spray is recommended. */
  harvest: boolean
  /** Whether a spray here was over the label, so that the adviser is asked before any other. */
  overLabel: boolean
}

/** Blocks without protection while a disease endangers them, and protection that ends soon. */
export function coverItems(from: TodayFrom, told: ReadonlySet<string>): TodayDraft[] {
  const open = from.covers.flatMap(({ block, covers }) =>
    covers
      .filter(({ disease }) => !told.has(`${block.id} ${disease}`))
      .flatMap((one) => openState(from, block.id, one) ?? []),
  )
  const over = groupedBy(
    open.filter(({ about }) => about.overLabel),
    ({ block }) => block,
  )
  const groups = grouped(open.filter(({ about }) => !about.overLabel)).flatMap(({ blocks, about }) => {
    const own = open.filter((one) => blocks.includes(one.block) && one.about.disease === about.disease)
    const common = usableByAll(own.map((one) => one.about.remedies))
    const isOne = common.some(({ may }) => may) || about.harvest || !about.remedies.some(({ may }) => may)
    return isOne
      ? [own.map((one) => ({ ...one, about: { ...one.about, remedies: common } }))]
      : own.map((one) => [one])
  })
  const asked = [...over].map(([block, own]) =>
    askItem(
      from,
      block,
      own.map(({ about }) => about),
    ),
  )
  return [...asked, ...groups.map((group) => openItem(from, group)), ...endItems(from)]
}

/** The products, those that may be used on every one of the blocks first. */
function usableByAll(lists: readonly Remedy[][]): Remedy[] {
  const [first = [], ...rest] = lists
  const joined = first.map((one) => {
    const same = [one, ...rest.flatMap((list) => list.find(({ product }) => product === one.product) ?? [])]
    return same.find(({ may }) => !may) ?? one
  })
  return joined.toSorted((a, b) => Number(b.may) - Number(a.may))
}

function openState(from: TodayFrom, block: string, cover: DiseaseCover) {
  const { disease } = cover
  const { asOf } = from
  const today = cover.on(asOf)
  if (!today?.needed || today.covered === true) return null
  const { danger } = today
  if (danger.level === 'low') return null
  const harvest = harvestNear(from, block)
  // Near harvest a spray starts a new waiting time, so only rot still matters for the day of picking.
  if (harvest && (disease !== 'botrytis' || danger.level !== 'high')) return null
  const since =
    today.covered === null
      ? null
      : (cover.gaps.find(({ from: start, to }) => start <= asOf && to >= asOf)?.from ?? asOf)
  const remedies = remediesToday(from, block, disease)
  if (danger.level === 'unknown' && remedies.length === 0 && isDryByDays(from)) return null
  const overLabel = standsOverLabel(from, block)
  const parts = today.inPart ? partsOn(asOf, cover.sprays) : []
  const about: Open = { disease, since, parts, danger, remedies, harvest, overLabel }
  const none = !remedies.some(({ may }) => may)
  return { block, key: [disease, danger.level, since === null, harvest, none, ...parts].join(' '), about }
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

function openItem(from: TodayFrom, group: readonly { block: string; about: Open }[]): TodayDraft {
  const { about } = group[0]!
  const blocks = group.map(({ block }) => block)
  const { disease, danger, remedies, harvest } = about
  const { level, reasons, unknown } = danger
  const late =
    danger.tissue === 'leaf' &&
    blocks.every((block) => from.judge.growth(block).veraisonOn(dayOf(from.asOf)) === 'after')
  const since = group.flatMap((one) => one.about.since ?? [])
  const [first] = since.toSorted()
  const later = since.some((day) => day !== first) ? ' (some later)' : ''
  // Botrytis sprays are timed, so that a day since when is no matter there.
  const sinceText =
    disease === 'botrytis' || !first
      ? ''
      : first === from.asOf
        ? ' from today'
        : ` since ${shortDate(first)}${later}`
  const part = about.parts.length > 0 ? `protected in part only (${listed(about.parts)}), else ` : ''
  const state = first ? `${part}unprotected${sinceText}` : 'protection unknown'
  // A reason that doesn't hold in every block names its block.
  const said = reasons.map((reason) =>
    group.every((one) => one.about.danger.reasons.includes(reason))
      ? reason
      : `${from.nameOf(blocks[0]!)}: ${reason}`,
  )
  const told = said.filter((reason, at) => at < 2 || (late && reason.includes(SPOTS_LATE)))
  const why = asSentences([...told, ...notKnown(unknown.slice(0, 1))])
  const may = remedies.filter((one) => one.may)
  const mixes = !harvest && may.length > 0
  const none = harvest
    ? ' Pick sooner or sort: no spray this close to harvest.'
    : mixes
      ? (may[0]!.facts
          .filter((fact) => fact.endsWith(SULPHUR_IN_HEAT))
          .map((fact) => ` ${upperFirst(fact)}.`)[0] ?? '')
      : remedies.length === 0
        ? ' No product recorded.'
        : ` Nothing in the shed may be used now${remedies.length === 1 ? `: ${remedies[0]!.against[0]}` : ''}.`
  const action = harvest
    ? 'Pick sooner or sort; no spray this close to harvest.'
    : `${shedText(remedies, disease)}${beforeRain(from, remedies)}`
  return {
    ...on('cover', blocks),
    disease,
    // After veraison leaves alone are at stake, and a late spray has to be weighed: common practice, no source.
    urgency: first && !late ? URGENCY[level] : 'soon',
    until: null,
    text: `${upperFirst(diseaseWord(disease))}, danger ${level}: ${namesOf(from, blocks)} ${state}. ${why} ${action}`,
    short: `${upperFirst(diseaseWord(disease))} danger ${level}, ${state}: ${fewNamesOf(from, blocks)}. ${asSentences(said.slice(0, 1)) || why}${none}`,
    reasons,
    level,
    ...(mixes ? { tank: { products: [may[0]!.product], diseases: [disease] } } : {}),
    next: harvest
      ? `rowbook ready --block ${blocks[0]}`
      : mixes
        ? mixCommand(from, { blocks, products: [may[0]!.product], diseases: [disease] })
        : `rowbook cover --for ${disease} --block ${blocks[0]}`,
  }
}

/** A block in danger that was sprayed over the label: no spray before somebody who may decide has been asked. */
function askItem(from: TodayFrom, block: string, abouts: readonly Open[]): TodayDraft {
  const levels = abouts.map(({ disease, danger }) => `${diseaseWord(disease)} ${danger.level}`).join(', ')
  const state = abouts.every(({ since }) => since === null)
    ? 'protection unknown'
    : abouts.some(({ parts }) => parts.length > 0)
      ? 'protected in part only'
      : 'unprotected'
  return {
    what: 'cover',
    block,
    blocks: [block],
    disease: abouts.length === 1 ? abouts[0]!.disease : null,
    urgency: 'now',
    until: null,
    text: `${from.nameOf(block)} ${state}, danger ${levels}. ${ASK_FIRST}`,
    short: null,
    reasons: abouts.flatMap(({ danger }) => danger.reasons),
    next: HOW_TO_CLEAR,
  }
}

/** Protection that ends within days, the earliest first, in one item. */
function endItems(from: TodayFrom): TodayDraft[] {
  const { asOf } = from
  const ends = from.covers.flatMap(({ block, covers }) =>
    covers.flatMap(({ disease, on }) => {
      const today = on(asOf)
      if (!today?.needed || !today.covered || today.danger.level === 'low') return []
      const left = today.daysLeft
      if (left === null || left > SOON_DAYS || harvestNear(from, block.id)) return []
      const end = addDays(asOf, left)
      return [{ block: block.id, key: `${end} ${disease}`, about: { end, disease } }]
    }),
  )
  const groups = grouped(ends).toSorted((a, b) => (a.about.end < b.about.end ? -1 : 1))
  const [first] = groups
  if (!first) return []
  const blocks = [...new Set(groups.flatMap((group) => group.blocks))]
  const diseases = new Set(groups.map(({ about }) => about.disease))
  const say = (names: (from: TodayFrom, blocks: readonly string[]) => string) =>
    groups
      .map(
        ({ blocks: own, about: { end, disease } }) =>
          `${diseaseWord(disease)} ${end === asOf ? 'today' : spokenDate(end)} (${names(from, own)})`,
      )
      .join(', ')
  return [
    {
      ...on('cover', blocks),
      disease: diseases.size === 1 ? first.about.disease : null,
      urgency: 'soon',
      until: first.about.end,
      text: `Protection ends: ${say(namesOf)}.`,
      short: `Protection ends: ${say(fewNamesOf)}.`,
      next: `rowbook cover --for ${first.about.disease}`,
    },
  ]
}
