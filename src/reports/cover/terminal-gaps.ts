import type { CoverGap } from '../../facts/protection/gaps.ts'
import { shortDate } from '../../records/spoken-date.ts'
import type { Disease } from '../../records/target.ts'
import { blockName, type CoverNames, partText, productName } from '../../render/disease-words.ts'
import { figure } from '../../render/figure.ts'
import type { Style } from '../../render/style.ts'
import { renderTable } from '../../render/table.ts'
import { counted, listed, wrap } from '../../render/text.ts'
import type { BlockCover, CoverData } from './report.ts'

/** Gaps that are shown before the rest is counted. */
const MOST_SHOWN = 8

/** A gap with the blocks that had the very same. */
interface SharedGap {
  gap: CoverGap
  blocks: BlockCover[]
}

/** The gaps on days of moderate, high or unknown pressure, the longest first and unknown pressure last, those of several blocks as one. */
export function gapsUnderPressure({ blocks }: Pick<CoverData, 'blocks'>): SharedGap[] {
  const shared = new Map<string, SharedGap>()
  for (const block of blocks)
    for (const gap of block.gaps) {
      if (gap.risk === 'low') continue
      const key = JSON.stringify(gap)
      const same = shared.get(key)
      if (same) same.blocks.push(block)
      else shared.set(key, { gap, blocks: [block] })
    }
  const known = ({ gap }: SharedGap) => (gap.risk === null ? 0 : 1)
  return [...shared.values()].sort(
    (a, b) => known(b) - known(a) || b.gap.days - a.gap.days || (a.gap.from < b.gap.from ? -1 : 1),
  )
}

/** The table of gaps, with what covered a part meanwhile, and the count of those that are not in it. */
export function gapLines(data: CoverData, names: CoverNames, style: Style): string {
  const all = gapsUnderPressure(data)
  const shown = all.slice(0, MOST_SHOWN)
  const rest = restLine(data, all.length - shown.length)
  if (shown.length === 0)
    return wrap(`No gap fell on days of moderate or high pressure. ${rest}`.trim(), style.columns)
  const table = renderTable(
    [
      { title: shown.every(({ gap }) => gap.risk === null) ? 'gaps' : 'under pressure', most: 18 },
      { title: 'from' },
      { title: 'to' },
      { title: 'days', align: 'right' },
      { title: 'worst' },
      { title: 'after', most: 26 },
    ],
    shown.map(({ gap, blocks }) => [
      blocks.length === data.blocks.length && blocks.length > 2
        ? 'all blocks'
        : blocks.map(({ block }) => blockName(block, names)).join(', '),
      shortDate(gap.from),
      shortDate(gap.to),
      String(gap.days),
      worst(gap, data.disease),
      gap.after
        ? `${productName(gap.after.product, names)} ${shortDate(gap.after.date)}: ${gap.after.reason ?? 'unknown'}`
        : 'nothing before',
    ]),
  )
  const parts = shown.flatMap((one) => partLines(one, names))
  return [
    table.trimEnd(),
    ...parts.map((line) => wrap(line, style.columns)),
    ...(rest ? [wrap(rest, style.columns)] : []),
  ].join('\n\n')
}

function partLines({ gap, blocks }: SharedGap, names: CoverNames): string[] {
  if (gap.parts.length === 0) return []
  const [block] = blocks
  const rows = block?.rows == null ? '' : ` of ${block.rows}`
  const parts = gap.parts.map(
    (part) =>
      `${productName(part.product, names)} on ${shortDate(part.date)} on ${partText(part)}${part.rows ? rows : ''}`,
  )
  const who = listed(blocks.map(({ block }) => blockName(block, names)))
  return [`In the gap from ${shortDate(gap.from)} ${who} had cover in part: ${listed(parts)}.`]
}

function restLine({ blocks, disease }: CoverData, notShown: number): string {
  const quiet = blocks.reduce((sum, { gaps }) => sum + gaps.filter(({ risk }) => risk === 'low').length, 0)
  const others = blocks.flatMap(({ diseases }) => diseases.filter(({ sprays }) => sprays.length > 0))
  const beside = [...new Set(others.map((one) => one.disease))].flatMap((other) => {
    const count = others
      .filter((one) => one.disease === other)
      .reduce((sum, { gaps }) => sum + gaps.filter(({ risk }) => risk !== 'low').length, 0)
    return count > 0 ? [`${counted(count, 'gap')} under pressure of ${other} (\`--for ${other}\`)`] : []
  })
  return [
    notShown > 0
      ? `${counted(notShown, 'shorter gap')} under pressure ${notShown === 1 ? 'is' : 'are'} in --json.`
      : '',
    quiet > 0 ? `${counted(quiet, 'more gap')} against ${disease} had low pressure throughout.` : '',
    beside.length > 0 ? `Beside these, ${listed(beside)}.` : '',
  ]
    .filter(Boolean)
    .join(' ')
}

/** The greatest pressure of a gap in words. */
export function worst({ worstIndex, risk }: CoverGap, disease: Disease): string {
  if (worstIndex === null || risk === null) return 'unknown'
  if (disease === 'powdery') return `${risk}, ${worstIndex}`
  if (disease === 'botrytis') return `${risk}, ${figure(worstIndex * 100, 0)} %`
  return 'infection'
}
