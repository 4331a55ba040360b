import type { GateState } from '../../facts/picking/gate.ts'
import type { Report } from '../../facts/report.ts'
import { asSentences, notKnown } from '../../facts/sentences.ts'
import { shortDate, spokenDate } from '../../records/spoken-date.ts'
import type { Paint } from '../../render/colours.ts'
import { numbers } from '../../render/columns.ts'
import { rough } from '../../render/figure.ts'
import { safeLine } from '../../render/safe.ts'
import type { Style } from '../../render/style.ts'
import { renderTable } from '../../render/table.ts'
import { sentences, underAnswer, wrap, wrapAll } from '../../render/text.ts'
import type { ReadyBlock, ReadyData } from './report.ts'
import { adviceText, answerOf, earliestFirst, GATE, orderLine } from './sentences.ts'
import { detailOf } from './terminal-detail.ts'

interface ReadyShown {
  names: ReadonlyMap<string, string>
  /** One table of all blocks instead of a page for each. */
  all: boolean
}

/** The verdict on every block in one sentence each, then a page for each block, or one table. */
export function renderReady(report: Report<ReadyData>, { names, all }: ReadyShown, style: Style): string {
  const blocks = earliestFirst(report.data.blocks)
  if (blocks.length === 0) return 'No block is recorded.\n'
  const nameOf = ({ block }: ReadyBlock) => names.get(block) ?? block
  const first = wrap(answerOf(blocks, names), style.columns)
  const { cautions } = report
  if (all) return underAnswer(`${first}\n\n${summary(blocks, { nameOf, style })}`, cautions, style.columns)
  const order = orderLine(report.data, names)
  const pages = blocks.map((block) => page(block, { name: nameOf(block), style }))
  const said = order ? `${first}\n${wrap(safeLine(order), style.columns)}` : first
  return underAnswer(`${said}\n\n${pages.join('\n')}`, cautions, style.columns)
}

function paintState(paint: Paint, state: GateState): string {
  if (state === 'not-asked') return paint.faint('not asked')
  const by = state === 'pass' ? paint.good : state === 'fail' ? paint.bad : paint.doubtful
  return by(state)
}

function paintVerdict(paint: Paint, verdict: ReadyBlock['verdict']): string {
  const by = verdict === 'ready' ? paint.good : verdict === 'stop' ? paint.bad : paint.doubtful
  return by(verdict)
}

function page(block: ReadyBlock, { name, style }: { name: string; style: Style }): string {
  const { paint, columns } = style
  const rows = block.gates.map((gate) => [
    `  ${GATE[gate.gate]}`,
    paintState(paint, gate.state),
    detailOf(gate, style.units),
  ])
  const table = renderTable(['', '', { title: '', most: columns - 32 }], rows)
  const lines = sentences(
    block.picked &&
      `Picked on ${spokenDate(block.picked.date)}, ${rough(block.picked.weight, style.units)}. What follows is as of today.`,
    adviceLines(block),
    windowLines(block),
    block.sulphur,
    block.rain,
    block.pressure,
    !block.picked && block.todo.length > 0 && `To do: ${block.todo.join(' ')}`,
  )
  const below = wrapAll(lines, columns, '  ')
  const head = wrap(`${paint.strong(name)}: ${paintVerdict(paint, block.verdict)}`, columns)
  return `${head}${table.replace(/^\s*\n/, '\n')}${below}\n`
}

/** What argues for picking now, how likely botrytis is, and what was written of seeds, skins and taste. */
function adviceLines({ advice, danger, observed }: ReadyBlock): string[] {
  return sentences(
    advice && adviceText(advice),
    danger &&
      danger.level !== 'low' &&
      `Botrytis danger ${danger.level}. ${asSentences([...danger.reasons, ...notKnown(danger.unknown)])}`,
    observed.length > 0 &&
      `${observed.map(({ what, text, date }) => `${SENSES[what]} (${shortDate(date)}): ${text}`).join('; ')}.`,
  ).map(safeLine)
}

const SENSES = { seeds: 'Seeds', skins: 'Skins', taste: 'Taste' } as const

function windowLines({ window, legalFrom, conflicts }: ReadyBlock): string[] {
  const { earliest, likely, latest } = window
  const range = earliest && latest ? ` (${shortDate(earliest)} to ${shortDate(latest)}, 9 times in 10)` : ''
  return sentences(
    likely && `Sugar at the target about ${spokenDate(likely)}${range}.`,
    legalFrom && `The pre-harvest interval (PHI) allows picking from ${spokenDate(legalFrom)}.`,
    conflicts,
  )
}

function cropOf({ gates }: ReadyBlock, { units }: Style): string {
  return rough(gates.find(({ gate }) => gate === 'crop')?.estimate ?? null, units, 'unknown')
}

function summary(
  blocks: readonly ReadyBlock[],
  { nameOf, style }: { nameOf: (block: ReadyBlock) => string; style: Style },
): string {
  const { paint } = style
  const faulty = blocks.some(({ gates }) =>
    gates.some(({ gate, state }) => gate === 'records' && state !== 'pass'),
  )
  const shown = [...(faulty ? ['records'] : []), 'before-harvest', 're-entry', 'disease', 'sugar', 'acid']
  const short = (block: ReadyBlock, gate: string) => block.gates.find((one) => one.gate === gate)!.short
  return renderTable(
    [
      { title: '', most: 15 },
      ...(faulty ? ['records'] : []),
      'PHI',
      'REI',
      'disease',
      'sugar',
      ...numbers('acid', 'crop'),
      'verdict',
    ],
    blocks.map((block) => [
      nameOf(block),
      ...shown.map((gate) => short(block, gate)),
      cropOf(block, style),
      block.picked ? `picked\n${shortDate(block.picked.date)}` : paintVerdict(paint, block.verdict),
    ]),
  )
}
