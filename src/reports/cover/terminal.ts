import { HIGH_PRESSURE } from '../../agronomy/disease/powdery-interval.ts'
import { groupedBy } from '../../facts/judged.ts'
import { inLedgerUnits, rainText } from '../../facts/ledger-units.ts'
import { partsOn, partText, WHOLE } from '../../facts/protection/parts.ts'
import type { Report } from '../../facts/report.ts'
import { listed } from '../../facts/sentences.ts'
import { byHandText } from '../../facts/weather/by-hand.ts'
import { addDays } from '../../records/date.ts'
import { diseaseWord } from '../../records/disease.ts'
import { shortDate, shortSpan, spokenDate } from '../../records/spoken-date.ts'
import { numbers, words } from '../../render/columns.ts'
import {
  blockName,
  type CoverNames,
  type CoverWord,
  coverWord,
  endedBy,
  productName,
} from '../../render/disease-words.ts'
import { orDash } from '../../render/figure.ts'
import type { Style } from '../../render/style.ts'
import { renderTable } from '../../render/table.ts'
import { sentences, underAnswer, wrap, wrapAll } from '../../render/text.ts'
import { type CoverData, coversIn, type DiseaseCover } from './report.ts'
import { gapLines, gapsUnderPressure } from './terminal-gaps.ts'
import { nextSprayTable } from './terminal-next-spray.ts'
import { coverStrips } from './terminal-strips.ts'

export type { CoverNames } from '../../render/disease-words.ts'

/**
 * Protection: who is unprotected now, the season as strips under the pressure, the gaps that mattered, and the state
 * today.
 */
export function renderCover(report: Report<CoverData>, style: Style, names: CoverNames): string {
  const { data } = report
  if (data.blocks.length === 0) return 'The ledger has no blocks yet.\n'
  if (data.blocks.every(({ days }) => days.length === 0))
    return `Protection is shown from ${spokenDate(data.from)} on.\n`
  const lines = [...whyLines(data, names), ...notAdvisedLines(data, names)]
  const hand = byHandText(data.byHand)
  const parts = sentences(
    wrap(answer(data, names), style.columns),
    isEverNeeded(data) && [coverStrips(data, names, style), gapLines(data, names, style)],
    stateTable(data, names, style).trimEnd(),
    nextSprayTable(data, names, style.columns).trimEnd(),
    wrapAll(lines, style.columns),
    hand && wrap(hand, style.columns),
    data.why && wrap(`${data.why}.`, style.columns),
    style.paint.faint(wrap(inLedgerUnits(data.rules.join(' '), style.units), style.columns)),
  )
  return underAnswer(`${parts.join('\n\n')}\n`, report.cautions, style.columns)
}

const isEverNeeded = ({ blocks }: CoverData) => blocks.some(({ days }) => days.some(({ needed }) => needed))

function answer(data: CoverData, names: CoverNames): string {
  const { blocks } = data
  const against = `against ${diseaseWord(data.disease)}`
  const nameOf = ({ block }: { block: string }) => blockName(block, names)
  const groups = groupedBy(blocks, wordNow)
  const say = (word: CoverWord, one: string, several: string, rest: string) => {
    const who = groups.get(word) ?? []
    return who.length > 0 && `${listed(who.map(nameOf))} ${who.length === 1 ? one : several} ${rest}`
  }
  const parts = sentences(
    say('open', 'is', 'are', `unprotected ${against}`),
    groups
      .get('in part')
      ?.map((one) => `${nameOf(one)} is protected ${against} in part only: ${partsNow(one)}`),
    say('covered', 'is', 'are', `protected ${against}`),
    say('unknown', 'has', 'have', `unknown protection ${against}`),
    say('not yet', 'needs', 'need', `no protection ${against} yet`),
    say('past need', 'needs', 'need', `no protection ${against} now`),
  )
  const last = blocks[0]?.days.at(-1)?.date
  const [longest] = gapsUnderPressure(data)
  const gap = longest
    ? ` Worst gap: ${listed(longest.blocks.map(nameOf))}, ${shortSpan(longest.gap.from, longest.gap.to)}, danger ${longest.gap.danger.level}.`
    : ''
  return `${last ? `${spokenDate(last)}: ` : ''}${parts.join('; ')}.${gap}`
}

const wordNow = ({ days, needed }: DiseaseCover): CoverWord => {
  const day = days.at(-1)
  return day ? coverWord(day, needed) : 'unknown'
}

const partsNow = ({ days, sprays }: DiseaseCover): string => listed(partsOn(days.at(-1)!.date, sprays))

const isWhole = ({ rows, share }: DiseaseCover['sprays'][number]) =>
  rows === null && share !== null && share >= WHOLE

/** The spray that today's state is based on: the one that ends it where the whole is protected, else the newest. */
function decidingSpray({ days, sprays }: DiseaseCover): DiseaseCover['sprays'][number] | undefined {
  const day = days.at(-1)
  if (!day?.covered || day.daysLeft === null) return sprays.at(-1)
  const end = addDays(day.date, day.daysLeft)
  return sprays.findLast(({ product, until }) => product === day.by && until === end) ?? sprays.at(-1)
}

function stateTable(
  { blocks, disease }: CoverData,
  names: CoverNames,
  { paint, units, columns }: Style,
): string {
  const shown = {
    open: paint.bad('unprotected'),
    covered: paint.good('protected'),
    'past need': 'no need',
  } as const
  const states = coversIn(blocks)
    .map(({ block, cover }) => ({ block, cover, day: cover.days.at(-1), last: decidingSpray(cover) }))
    .filter(({ cover, day, last }) => cover.disease === disease || (last && day?.needed) || day?.covered)
  const now = (cover: DiseaseCover) => {
    const word = wordNow(cover)
    return word in shown ? shown[word as keyof typeof shown] : word
  }
  const sprayed = (spray: DiseaseCover['sprays'][number]) =>
    `${productName(spray.product, names)}${isWhole(spray) ? '' : `, ${partText(spray)}`}`
  const rain = ({ cover, day, last }: (typeof states)[number]) =>
    last && last === cover.sprays.at(-1) ? (day?.rainSince ?? null) : null
  return renderTable(
    states,
    [
      words('block', ({ block }, at) => (states[at - 1]?.block === block ? '' : blockName(block, names)), 10),
      words('against', ({ cover }) => diseaseWord(cover.disease)),
      words('now', ({ cover }) => now(cover), 11),
      words('last spray', ({ last }) => (last ? sprayed(last) : 'nothing'), 12),
      words('on', ({ last }) => (last ? shortDate(last.date) : '-')),
      words('until', ({ last }) => (last?.until ? shortDate(last.until) : last ? 'unknown' : '-')),
      words('ended by', ({ last }) => (last?.reason ? endedBy(last.reason) : ''), 10),
      numbers('rain', (state) => orDash(rain(state), (mm) => rainText(Math.round(mm), units))),
    ],
    columns,
  )
}

/** Why it is unknown whether a block is protected today. */
const whyLines = ({ blocks }: CoverData, names: CoverNames): string[] =>
  coversIn(blocks).flatMap(({ block, cover: { disease, days, sprays } }) => {
    const day = days.at(-1)
    return !day?.needed || day.why === null || sprays.length === 0
      ? []
      : `${blockName(block, names)}, ${diseaseWord(disease)}: protection unknown: ${day.why}.`
  })

/** Sprays that were the protection on days for which the interval table advises no product of their class. */
const notAdvisedLines = ({ blocks }: CoverData, names: CoverNames): string[] =>
  coversIn(blocks).flatMap(({ block, cover: { disease, sprays } }) => {
    const found = sprays.filter(({ notAdvised }) => notAdvised !== null)
    const list = listed(found.map((one) => `${productName(one.product, names)} of ${shortDate(one.date)}`))
    return found.length === 0
      ? []
      : `${blockName(block, names)}, ${diseaseWord(disease)}: from index ${HIGH_PRESSURE} on, the index table advises against biological products. Only this was sprayed: ${list}.`
  })
