import { groupedBy } from '../../facts/judged.ts'
import type { Names } from '../../facts/names.ts'
import type { Report } from '../../facts/report.ts'
import { type Column, type Columns, words } from '../../render/columns.ts'
import { figure } from '../../render/figure.ts'
import type { Style } from '../../render/style.ts'
import { renderTable } from '../../render/table.ts'
import { counted, underAnswer, wrap, wrapCommand } from '../../render/text.ts'
import type { SheetBlock, SheetData } from './report.ts'
import type { SheetKind, SheetLine, Wanted } from './sheet-block.ts'

/** The sheet as plain text: block by block where to go, with room to write. */
export function renderSheet(
  report: Report<SheetData>,
  style: Style,
  { blocks: names }: Pick<Names, 'blocks'>,
): string {
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
  const table = renderTable(
    lines,
    [
      ...placeColumns(lines),
      ...block.columns.map((title) => words(title.replace(': ', ':\n'), () => BLANK)),
      words('', () => '[ ]'),
    ],
    columns,
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

export const TITLES: Record<SheetKind, string> = {
  scouting: 'Scouting sheet',
  sampling: 'Berry sampling sheet',
  crop: 'Bunch count sheet',
}

/** `12 rows, 340 vines`; without rows, the vines alone. */
export const sizeOf = ({ rows, vines }: Pick<SheetBlock, 'rows' | 'vines'>): string =>
  rows === null ? `${vines} vines` : `${rows} rows, ${vines} vines`

/** `100 bunches, 5 on each vine: enough to find disease on 3 % of them, 19 times in 20.` */
export function wantedText({ what, units, perVine, why }: Wanted): string {
  const each = perVine === null ? '' : `, ${figure(perVine, 0)} on each vine`
  return `${units} ${what}${each}: ${why}.`
}

/** Whether a line has several places, whose vines are gathered into one bag. */
export const isSeveral = (lines: readonly SheetLine[]): boolean =>
  lines.some(({ places }) => places.length > 1)

/** What is looked at on a line, where that is written. */
export const WHAT: Column<SheetLine, string> = words('what', ({ label }) => label)

/** Where a line is written: one place each by row and vine, several together. */
export function placeColumns(lines: readonly SheetLine[]): Columns<SheetLine, string | number> {
  const hasRows = lines.some(({ places }) => places.some(({ row }) => row !== null))
  const where = isSeveral(lines)
    ? [words('from', ({ places }: SheetLine) => together(places), 34)]
    : [
        hasRows && words('row', ({ places }: SheetLine) => places[0]?.row ?? ''),
        words('vine', ({ places }: SheetLine) => places[0]?.vine ?? ''),
      ]
  return [lines.some(({ label }) => label !== '') && WHAT, ...where]
}

/** `row 3: 12, 40; row 5: 7`. */
function together(places: SheetLine['places']): string {
  const rows = groupedBy(places, ({ row }) => (row === null ? 'vine ' : `row ${row}: `))
  return [...rows].map(([of, own]) => of + own.map(({ vine }) => vine).join(', ')).join('; ')
}
