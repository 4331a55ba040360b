import { groupedBy } from '../../facts/judged.ts'
import { figure } from '../../render/figure.ts'
import type { SheetBlock, SheetKind, SheetLine, Wanted } from './sheet-block.ts'

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

/** The headings of where a line is written: one place each by row and vine, several together. */
export function whereColumns(lines: readonly SheetLine[]): string[] {
  const labelled = lines.some(({ label }) => label !== '') ? ['what'] : []
  if (isSeveral(lines)) return [...labelled, 'from']
  return lines.some(({ places }) => places.some(({ row }) => row !== null))
    ? [...labelled, 'row', 'vine']
    : [...labelled, 'vine']
}

/** The cells of where a line is written. */
export function placeCells({ label, places }: SheetLine, where: readonly string[]): string[] {
  return where.map((column) => {
    if (column === 'what') return label
    if (column === 'from') return together(places)
    const place = places[0]
    return String((column === 'row' ? place?.row : place?.vine) ?? '')
  })
}

/** `row 3: 12, 40; row 5: 7`. */
function together(places: SheetLine['places']): string {
  const rows = groupedBy(places, ({ row }) => (row === null ? 'vine ' : `row ${row}: `))
  return [...rows].map(([of, own]) => of + own.map(({ vine }) => vine).join(', ')).join('; ')
}
