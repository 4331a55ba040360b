import { groupedBy } from '../../facts/judged.ts'
import type { CoverGap } from '../../facts/protection/gaps.ts'
import { partText } from '../../facts/protection/parts.ts'
import { asSentences, listed, notKnown } from '../../facts/sentences.ts'
import { diseaseWord } from '../../records/disease.ts'
import { shortDate, shortSpan } from '../../records/spoken-date.ts'
import { numbers, words } from '../../render/columns.ts'
import { blockName, type CoverNames, endedBy, productName } from '../../render/disease-words.ts'
import type { Style } from '../../render/style.ts'
import { renderTable } from '../../render/table.ts'
import { counted, sentences, wrap } from '../../render/text.ts'
import type { BlockCover, CoverData, DiseaseCover } from './report.ts'

/** Most gaps shown; the rest are counted. */
const MOST_SHOWN = 8
/** Most gaps shown with reasons. */
const MOST_EXPLAINED = 3

/** A gap with all blocks that had the same one. */
type SharedGap = { gap: CoverGap; blocks: BlockCover[] }

const whoOf = ({ blocks }: SharedGap, names: CoverNames) => blocks.map(({ block }) => blockName(block, names))

/**
 * The gaps on days of moderate, high or unknown danger, the most serious first, then the longest; those of several
 * blocks as one.
 */
export function gapsUnderPressure({ blocks }: Pick<CoverData, 'blocks'>): SharedGap[] {
  const all = blocks.flatMap((block) =>
    block.gaps.flatMap((gap) => (gap.risk === 'low' ? [] : [{ gap, block }])),
  )
  const shared = [...groupedBy(all, ({ gap }) => JSON.stringify(gap)).values()].map((same) => ({
    gap: same[0]!.gap,
    blocks: same.map(({ block }) => block),
  }))
  const order = ['high', 'unknown', 'moderate', 'low']
  const rank = ({ gap }: SharedGap) => order.indexOf(gap.danger.level)
  return shared.sort(
    (a, b) => rank(a) - rank(b) || b.gap.days - a.gap.days || (a.gap.from < b.gap.from ? -1 : 1),
  )
}

/** The table of gaps, with what protected a part meanwhile, and the count of those not in it. */
export function gapLines(data: CoverData, names: CoverNames, style: Style): string {
  const all = gapsUnderPressure(data)
  const shown = all.slice(0, MOST_SHOWN)
  const rest = restLine(data, all.length - shown.length)
  if (shown.length === 0) return wrap(`No danger on any unprotected day. ${rest}`.trim(), style.columns)
  const who = (one: SharedGap) =>
    one.blocks.length === data.blocks.length && one.blocks.length > 2
      ? 'all blocks'
      : whoOf(one, names).join(', ')
  const table = renderTable(
    shown,
    [
      words('unprotected', who, 18),
      words('from', ({ gap }) => shortDate(gap.from)),
      words('to', ({ gap }) => shortDate(gap.to)),
      numbers('days', ({ gap }) => gap.days),
      words('danger', ({ gap }) => gap.danger.level),
      words('after', ({ gap }) => afterText(gap.after, names), 26),
    ],
    style.columns,
  )
  const why = shown.slice(0, MOST_EXPLAINED).map((one) => whyLine(one, names))
  const lines = sentences(why, shown.map((one) => partLine(one, names)).filter(Boolean), rest)
  return [table.trimEnd(), ...lines.map((line) => wrap(line, style.columns))].join('\n\n')
}

function afterText(after: CoverGap['after'], names: CoverNames): string {
  if (!after) return 'nothing before'
  const end = after.reason === null ? 'protection not known' : endedBy(after.reason)
  return `${productName(after.product, names)} of ${shortDate(after.date)}: ${end}`
}

/** What made the danger of a gap. */
function whyLine(one: SharedGap, names: CoverNames): string {
  const { from, to, danger } = one.gap
  const { level, reasons, unknown } = danger
  return `${listed(whoOf(one, names))}, ${shortSpan(from, to)}, danger ${level}. ${asSentences([...reasons.slice(0, 3), ...notKnown(unknown)])}`
}

function partLine(one: SharedGap, names: CoverNames): string {
  const { gap, blocks } = one
  if (gap.parts.length === 0) return ''
  const rows = blocks[0]!.rows === null ? '' : ` of ${blocks[0]!.rows}`
  const parts = gap.parts.map(
    (part) =>
      `${productName(part.product, names)} on ${shortDate(part.date)} on ${partText(part)}${part.rows ? rows : ''}`,
  )
  return `From ${shortDate(gap.from)} ${listed(whoOf(one, names))} ${blocks.length === 1 ? 'was' : 'were'} protected in part: ${listed(parts)}.`
}

function restLine({ blocks, disease }: CoverData, notShown: number): string {
  const count = (covers: readonly DiseaseCover[], isLow: boolean) =>
    covers.reduce((sum, { gaps }) => sum + gaps.filter(({ risk }) => (risk === 'low') === isLow).length, 0)
  const quiet = count(blocks, true)
  const others = groupedBy(
    blocks.flatMap(({ diseases }) => diseases.filter(({ sprays }) => sprays.length > 0)),
    (one) => one.disease,
  )
  const beside = [...others].flatMap(([other, covers]) => {
    const gaps = count(covers, false)
    return gaps > 0 ? `${counted(gaps, 'gap')} with danger of ${other} (\`--for ${other}\`)` : []
  })
  return sentences(
    notShown > 0 &&
      `${counted(notShown, 'more gap')} with danger moderate, high or unknown: --json lists them.`,
    quiet > 0 && `${counted(quiet, 'more gap')} against ${diseaseWord(disease)} fell on days of low danger.`,
    beside.length > 0 && `Also ${listed(beside)}.`,
  ).join(' ')
}
