import { inLedgerUnits } from '../../facts/ledger-units.ts'
import { GATES, type GateName } from '../../facts/picking/gate.ts'
import type { Report } from '../../facts/report.ts'
import { asSentences, notKnown } from '../../facts/sentences.ts'
import { shortDate, spokenDate } from '../../records/spoken-date.ts'
import type { Paint } from '../../render/colours.ts'
import { numbers, words } from '../../render/columns.ts'
import { rough, roughRange } from '../../render/figure.ts'
import { safeLine } from '../../render/safe.ts'
import type { Style } from '../../render/style.ts'
import { renderTable } from '../../render/table.ts'
import { sentences, underAnswer, wrap, wrapAll } from '../../render/text.ts'
import type { ReadyBlock, ReadyData } from './report.ts'
import { adviceText, answerOf, earliestFirst, GATE, orderLine, TONES } from './sentences.ts'

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

const painted = (word: keyof typeof TONES, paint: Paint): string =>
  word === 'not-asked' ? paint.faint('not asked') : paint[TONES[word]](word)

function page(block: ReadyBlock, { name, style }: { name: string; style: Style }): string {
  const { paint, columns } = style
  const table = renderTable(
    block.gates,
    [
      words('', ({ gate }) => `  ${GATE[gate]}`),
      words('', ({ state }) => painted(state, paint)),
      words('', (gate) => detailOf(gate, style.units), columns - 32),
    ],
    style.columns,
  )
  const lines = sentences(
    block.picked &&
      `Picked on ${spokenDate(block.picked.date)}, ${rough(block.picked.weight, style.units)}. What follows is as of today.`,
    adviceLines(block),
    windowLines(block),
    block.sulphur,
    block.rain,
    block.pressure,
    block.todo.length > 0 && `To do: ${block.todo.join(' ')}`,
  )
  const below = wrapAll(lines, columns, '  ')
  const head = wrap(
    `${paint.strong(name)}: ${block.picked ? 'picked' : painted(block.verdict, paint)}`,
    columns,
  )
  return `${head}${table.replace(/^\s*\n/, '\n')}${below}\n`
}

/** Why a check has its result; the crop rounded as in the table, in the requested units. */
export function detailOf(
  { gate, detail, estimate, low, high }: ReadyBlock['gates'][number],
  units: Style['units'],
): string {
  if (gate !== 'crop' || !estimate) return inLedgerUnits(safeLine(detail), units)
  if (!low || !high) return `about ${rough(estimate, units)}${detail.slice(detail.indexOf(','))}`
  const grown = detail.slice(detail.indexOf(')') + 1)
  return `about ${rough(estimate, units)} (${roughRange(low, high, units)}, 95 %)${grown}`
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

/** Headings of checks whose names are long. */
const HEADS: Partial<Record<GateName, string>> = { 'before-harvest': 'PHI', 're-entry': 'REI' }

function summary(
  blocks: readonly ReadyBlock[],
  { nameOf, style }: { nameOf: (block: ReadyBlock) => string; style: Style },
): string {
  const faulty = blocks.some(({ gates }) =>
    gates.some(({ gate, state }) => gate === 'records' && state !== 'pass'),
  )
  const shown = GATES.filter((gate) => gate !== 'records' || faulty)
  const cell = ({ gates }: ReadyBlock, name: GateName) => {
    const found = gates.find(({ gate }) => gate === name)!
    return name === 'crop' ? rough(found.estimate ?? null, style.units, 'unknown') : found.short
  }
  return renderTable(
    blocks,
    [
      words('', nameOf, 15),
      ...shown.map((gate) => {
        const column = gate === 'acid' || gate === 'crop' ? numbers : words
        return column(HEADS[gate] ?? gate, (block: ReadyBlock) => cell(block, gate))
      }),
      words('verdict', ({ picked, verdict }) =>
        picked ? `picked\n${shortDate(picked.date)}` : painted(verdict, style.paint),
      ),
    ],
    style.columns,
  )
}
