import type { Report } from '../../facts/report.ts'
import type { Style } from '../../render/style.ts'
import { renderTable } from '../../render/table.ts'
import { counted, underAnswer, wrap, wrapCommand } from '../../render/text.ts'
import type { SheetBlock, SheetData } from './report.ts'
import { placeCells, sizeOf, TITLES, wantedText, whereColumns } from './terminal-words.ts'

type Names = ReadonlyMap<string, string>

/** The sheet as plain text: block by block where to go, with room to write. */
export function renderSheet(report: Report<SheetData>, names: Names, style: Style): string {
  const { kind, blocks, again } = report.data
  if (blocks.length === 0) return 'There is no block in this ledger.\n'
  const places = blocks.reduce((sum, { lines }) => sum + lines.length, 0)
  const head = `${TITLES[kind]}: ${counted(blocks.length, 'block')}, ${counted(places, 'line')} to write on. Print it with --html FILE.`
  const parts = blocks.map((block) => renderBlock(block, names.get(block.block) ?? block.block, style))
  const foot = `To make this sheet again, from the same records:\n${wrapCommand(again, style.columns)}\n`
  return underAnswer(
    `${wrap(head, style.columns)}\n\nDate __________  from ______ to ______  by __________________\n\n${parts.join('\n')}\n${foot}\n`,
    report.cautions,
    style.columns,
  )
}

const BLANK = '____'

function renderBlock(block: SheetBlock, name: string, { columns, paint }: Style): string {
  const { variety, stops, last, wanted, next, leavesOut, lines, once } = block
  const size = sizeOf(block)
  const where = whereColumns(lines)
  const table = renderTable(
    [
      ...where.map((title) => (title === 'from' ? { title, most: 34 } : title)),
      ...block.columns.map((title) => title.replace(': ', ':\n')),
      '',
    ],
    lines.map((line) => [...placeCells(line, where), ...block.columns.map(() => BLANK), '[ ]']),
  )
  const text = [
    paint.strong(wrap(`${name} (${variety}, ${size})`, columns)),
    ...stops.map((stop) => paint.strong(wrap(stop, columns))),
    ...last.map((line) => wrap(`Last: ${line}`, columns)),
    ...[...wanted.map(wantedText), ...next, ...leavesOut].map((line) => wrap(line, columns)),
    'A vine is missing? Take the next one.',
    '',
    table.trimEnd(),
    ...once.map((title) => `${title}: ________`),
    `To type it in:\n${wrapCommand(block.typeIn, columns)}`,
  ]
  return `${text.join('\n')}\n`
}
