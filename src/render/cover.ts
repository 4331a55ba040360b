import { shortDate, spokenDate } from '../records/date.ts'
import type { BlockCover, CoverData, CoverDay, CoverGap, DiseaseCover } from '../reports/cover.ts'
import type { Report } from '../reports/report.ts'
import { figure } from './figure.ts'
import { safeLine } from './safe.ts'
import { gridOf, months, perCharacter, strip, wordStrip } from './strip.ts'
import type { Style } from './style.ts'
import { renderTable } from './table.ts'
import { counted, listed, renderCautions, wrap } from './text.ts'

export interface CoverNames {
  blocks: ReadonlyMap<string, string>
  products: ReadonlyMap<string, string>
}

/** Cover: who is open now, the season as strips under the pressure, the state today, and the gaps that mattered. */
export function renderCover(report: Report<CoverData>, names: CoverNames, style: Style): string {
  const { data } = report
  if (data.blocks.length === 0) return 'The ledger has no blocks yet.\n'
  const parts = [wrap(answer(data, names), style.columns), '', strips(data, names, style)]
  parts.push('', stateTable(data, names, style).trimEnd())
  parts.push('', gapLines(data, names, style))
  if (data.why) parts.push('', wrap(`${data.why}.`, style.columns))
  parts.push('', style.paint.faint(wrap(data.rules.join(' '), style.columns)))
  return `${parts.join('\n')}\n${renderCautions(report.cautions, style.columns)}`
}

const blockName = (id: string, { blocks }: CoverNames) => safeLine(blocks.get(id) ?? id)
const productName = (id: string, { products }: CoverNames) => safeLine(products.get(id) ?? id)

function answer({ blocks, disease }: CoverData, names: CoverNames): string {
  const groups: Record<'covered' | 'open' | 'unknown' | 'past need', string[]> = {
    covered: [],
    open: [],
    unknown: [],
    'past need': [],
  }
  for (const { block, days } of blocks) {
    const day = days.at(-1)
    if (day) groups[stateOf(day)].push(blockName(block, names))
  }
  const say = (who: string[], what: string) =>
    who.length === 0 ? [] : [`${listed(who)} ${who.length === 1 ? 'is' : 'are'} ${what}`]
  const parts = [
    ...say(groups.open, `open to ${disease}`),
    ...say(groups.covered, `covered against ${disease}`),
    ...say(groups.unknown, 'unknown, since rain is missing'),
    ...say(groups['past need'], `past the need of cover against ${disease}`),
  ]
  const last = blocks[0]?.days.at(-1)?.date
  return `${last ? `${spokenDate(last)}: ` : ''}${parts.join('; ')}.`
}

type State = 'covered' | 'open' | 'unknown' | 'past need'

function stateOf({ needed, covered }: CoverDay): State {
  if (covered === true) return 'covered'
  if (!needed) return 'past need'
  return covered === null ? 'unknown' : 'open'
}

function strips({ blocks, chart, disease }: CoverData, names: CoverNames, style: Style): string {
  const days = blocks[0]!.days
  const room = 16
  const grid = gridOf(days[0]!.date, days.length, style.columns - room)
  const line = (name: string, text: string) =>
    [...name]
      .slice(0, room - 2)
      .join('')
      .padEnd(room) + text
  return [
    line(`${disease}`, strip(chart, grid)),
    ...blocks.map(({ block, days }) =>
      line(
        blockName(block, names),
        wordStrip(days.map(stateOf), grid, [
          { word: 'past need', sign: ' ' },
          { word: 'covered', sign: '█' },
          { word: 'unknown', sign: '?' },
          { word: 'open', sign: '▁' },
        ]),
      ),
    ),
    line('', months(grid)),
    style.paint.faint(
      wrap(
        `first line the pressure; below, blocks: full where covered, low where open on any of the days, ? unknown, blank where no cover is needed; ${perCharacter(grid)}`,
        style.columns,
        ' '.repeat(room),
      ),
    ),
  ].join('\n')
}

function stateTable({ blocks, disease }: CoverData, names: CoverNames, { paint }: Style): string {
  const rows = blocks.flatMap((block) => {
    const all: DiseaseCover[] = [block, ...block.diseases]
    return all
      .filter(({ sprays, disease: one }) => sprays.length > 0 || one === disease)
      .map((one, index) => {
        const day = one.days.at(-1)
        const state = day ? stateOf(day) : 'unknown'
        const word =
          state === 'past need'
            ? 'past'
            : state === 'open'
              ? paint.bad(state)
              : state === 'covered'
                ? paint.good(state)
                : state
        const last = one.sprays.at(-1)
        return [
          index === 0 ? blockName(block.block, names) : '',
          one.disease,
          word,
          last ? productName(last.product, names) : 'nothing',
          last ? shortDate(last.date) : '-',
          last?.until ? shortDate(last.until) : last ? 'open' : '-',
          last?.reason ?? '',
          day?.rainSince === null || day === undefined ? '-' : `${figure(day.rainSince, 0)} mm`,
        ]
      })
  })
  return renderTable(
    [
      { title: 'block', most: 12 },
      { title: 'against' },
      { title: 'now', most: 10 },
      { title: 'last spray', most: 13 },
      { title: 'on' },
      { title: 'until' },
      { title: 'ended by', most: 10 },
      { title: 'rain', align: 'right' },
    ],
    rows,
  )
}

function gapLines({ blocks, disease }: CoverData, names: CoverNames, style: Style): string {
  const rows = blocks.flatMap((block) => block.gaps.map((gap) => ({ block, disease, gap })))
  const bad = rows.filter(({ gap }) => gap.risk !== 'low')
  const quiet = rows.length - bad.length
  const others = blocks.flatMap(({ diseases }) => diseases.filter(({ sprays }) => sprays.length > 0))
  const beside = [...new Set(others.map((one) => one.disease))].flatMap((other) => {
    const count = others
      .filter((one) => one.disease === other)
      .reduce((sum, { gaps }) => sum + gaps.filter(({ risk }) => risk !== 'low').length, 0)
    return count > 0 ? [`${counted(count, 'gap')} under pressure of ${other} (\`--for ${other}\`)`] : []
  })
  const rest = [
    quiet > 0 ? `${counted(quiet, 'more gap')} against ${disease} had low pressure throughout.` : '',
    beside.length > 0 ? `Beside these, ${listed(beside)}.` : '',
  ]
    .filter(Boolean)
    .join(' ')
  if (bad.length === 0)
    return wrap(`No gap fell on days of moderate or high pressure. ${rest}`.trim(), style.columns)
  const table = renderTable(
    [
      { title: 'gaps under pressure', most: 19 },
      { title: 'from' },
      { title: 'to' },
      { title: 'days', align: 'right' },
      { title: 'worst' },
      { title: 'after', most: 30 },
    ],
    bad.map(({ block, disease, gap }) => [
      blockName((block as BlockCover).block, names),
      shortDate(gap.from),
      shortDate(gap.to),
      String(gap.days),
      worst(gap, disease),
      after(gap, names),
    ]),
  )
  return `${table.trimEnd()}${rest ? `\n\n${wrap(rest, style.columns)}` : ''}`
}

function worst({ worstIndex, risk }: CoverGap, disease: string): string {
  if (worstIndex === null || risk === null) return 'unknown'
  if (disease === 'powdery') return `${risk}, ${worstIndex}`
  if (disease === 'botrytis') return `${risk}, ${figure(worstIndex * 100, 0)} %`
  return 'infection'
}

function after({ after }: CoverGap, names: CoverNames): string {
  if (after === null) return 'nothing before'
  const [product, rest] = after.split(' of ')
  const [date, reason] = rest!.split(': ')
  return `${productName(product!, names)} ${shortDate(date!)}: ${reason}`
}
