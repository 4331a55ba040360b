import { inLedgerUnits } from '../../facts/ledger-units.ts'
import type { Names } from '../../facts/names.ts'
import { partText, WHOLE } from '../../facts/protection/parts.ts'
import { asSentences, upperFirst } from '../../facts/sentences.ts'
import { byHandText } from '../../facts/weather/by-hand.ts'
import { diseaseWord } from '../../records/disease.ts'
import { shortDate } from '../../records/spoken-date.ts'
import { numbers, words } from '../../render/columns.ts'
import { endedBy } from '../../render/disease-words.ts'
import { dateCell, nameOf, productName } from '../../render/html/figures.ts'
import { type Content, html, list, section } from '../../render/html/markup.ts'
import type { PageOf } from '../../render/html/page.ts'
import { folded, pageTable } from '../../render/html/table.ts'
import { drawDayChart } from '../../render/svg/day-chart.ts'
import { counted } from '../../render/text.ts'
import { coverChart } from './chart.ts'
import { type BlockCover, type CoverData, coversIn, type DiseaseCover } from './report.ts'
import { legalText } from './terminal-next-spray.ts'

/** Whether each block was protected when disease was likely. */
export const page: PageOf<CoverData> = ({ data }, { names, units }) => ({
  title: `Protection against ${diseaseWord(data.disease)}`,
  content: [
    data.why && html`<p>${upperFirst(data.why)}.</p>\n`,
    data.byHand?.length ? html`<p>${byHandText(data.byHand)}</p>\n` : null,
    data.blocks.map((block, index) => blockPart(block, { data, names, index })),
    section(
      'Rules used',
      folded(counted(data.rules.length, 'rule'), list(data.rules.map((rule) => inLedgerUnits(rule, units))), {
        filed: true,
      }),
    ),
  ],
})

function blockPart(
  block: BlockCover,
  { data, names, index }: { data: CoverData; names: Names; index: number },
): Content {
  const name = nameOf(names, block.block)
  const { from, to, why } = block.needed
  return section(
    name,
    html`<p>Protection needed from ${dateCell(from)} to ${dateCell(to)} (${why}).</p>\n`,
    drawDayChart(`cover-${index}`, coverChart(data.chart, block)),
    gapTable(name, block, names),
    partList(block, names),
    nextSprayTable(name, block, names),
    block.sprays.length > 0 && folded('Every spray in a table', sprayTable(name, block, names)),
    otherDiseases(block),
  )
}

/** How many gaps there are; each of them, with its reasons, is folded. */
function gapTable(name: string, { gaps }: BlockCover, names: Names): Content {
  if (gaps.length === 0) return html`<p>No gap while protection was needed.</p>\n`
  const table = pageTable(`${name}, unprotected days`, gaps, [
    numbers('from', ({ from }) => dateCell(from)),
    numbers('to', ({ to }) => dateCell(to)),
    numbers('days', ({ days }) => days),
    words('danger', ({ danger }) => danger.level),
    words('why', ({ danger }) => asSentences(danger.reasons.slice(0, 3))),
    words('after', ({ after }) =>
      after === null
        ? 'nothing sprayed before'
        : `${productName(names, after.product)} ${shortDate(after.date)}: ${endedBy(after.reason)}`,
    ),
  ])
  return folded(`${counted(gaps.length, 'gap')} in a table`, table, { filed: true })
}

/** What protected a part of the block in its gaps. */
function partList({ gaps, rows }: BlockCover, names: Names): Content {
  const parts = [
    ...new Map(gaps.flatMap((gap) => gap.parts.map((one) => [`${one.date} ${one.product}`, one]))).values(),
  ]
  if (parts.length === 0) return null
  const of = rows === null ? '' : ` of ${rows}`
  return html`<ul class="plain">${parts.map(
    (part) =>
      html`<li>${dateCell(part.date)}: ${productName(names, part.product)} on ${partText(part)}${part.rows && of} only.</li>\n`,
  )}</ul>\n`
}

/** The next spray against each disease, and the pre-harvest interval. */
function nextSprayTable(name: string, block: BlockCover, names: Names): Content {
  const rows = coversIn([block]).flatMap(({ cover: { disease, harvestStop: stop, sprays } }) => {
    if (!stop?.picking || (sprays.length === 0 && disease !== block.disease)) return []
    return [{ disease, stop, picking: stop.picking }]
  })
  if (rows.length === 0) return null
  return pageTable(`${name}, the next spray before harvest`, rows, [
    words('against', ({ disease }) => diseaseWord(disease)),
    numbers('due', ({ stop }) => dateCell(stop.nextDue)),
    numbers('picking from', ({ picking }) => dateCell(picking)),
    words('by the pre-harvest interval (PHI)', ({ stop }) => legalText(stop, names)),
  ])
}

function sprayTable(name: string, { sprays }: DiseaseCover, names: Names): Content {
  return pageTable(`${name}, sprays and their protection`, sprays, [
    numbers('sprayed', ({ date }) => dateCell(date)),
    words('product', ({ product, rows, share }) => {
      const part = share === null || share < WHOLE ? `, ${partText({ rows, share })}` : ''
      return `${productName(names, product)}${part}`
    }),
    numbers('protected until', ({ until }) => dateCell(until)),
    words('ended by', ({ reason, notAdvised }) => {
      const advice = notAdvised === null ? '' : `; not advised by the table from ${shortDate(notAdvised)}`
      return `${endedBy(reason)}${advice}`
    }),
  ])
}

function otherDiseases({ diseases }: BlockCover): Content {
  const lines = diseases.filter(({ gaps }) => gaps.length > 0)
  if (lines.length === 0) return null
  const said = lines.map(({ disease, gaps }) => {
    const days = gaps.reduce((sum, gap) => sum + gap.days, 0)
    return `${diseaseWord(disease)}, ${counted(days, 'unprotected day')} while protection was needed`
  })
  return html`<p class="quiet">Other diseases: ${said.join('; ')}.</p>\n`
}
