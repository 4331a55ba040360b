import { type BarChart, highestOf } from '../facts/charts/bar-chart.ts'
import type { Quantity } from '../records/quantity.ts'
import { safeLine } from './safe.ts'
import { nameCell, nameWidth } from './strip.ts'
import type { Style } from './style.ts'
import { wrap } from './text.ts'

const EIGHTHS = ['', '▏', '▎', '▍', '▌', '▋', '▊', '▉']
/** Width reserved after a bar for its figure and limit: `2.69 lb/acre of 3.57 lb/acre`. */
const FIGURES = 30

/**
 * Draws figures as bars of block characters from zero, lighter up to the end of the interval, with the limit as a
 * stroke.
 * @param say writes a figure: exactly, or rounded as an estimate
 */
export function renderBars(
  { title, unit, bars }: BarChart,
  { columns, paint, units }: Style,
  say: (figure: Quantity, units: Style['units']) => string,
): string {
  if (bars.length === 0) return ''
  const most = highestOf(bars)
  const names = bars.map(({ name }) => safeLine(name))
  const width = nameWidth(names)
  const room = Math.min(48, columns - width - FIGURES)
  const at = (value: number) => (most === 0 ? 0 : (value / most) * room)
  const said = (value: number) => say({ value, unit }, units)
  const rows = bars.map(({ value, high, limit }, index) => {
    const spread = high == null ? 0 : Math.round(at(high))
    const line = [
      ...barOf(at(value))
        .padEnd(spread, '░')
        .padEnd(room + 1),
    ]
    if (limit != null) line[Math.min(room, Math.round(at(limit)))] = '│'
    const told = limit == null ? said(value) : `${said(value)} of ${said(limit)}`
    return `${nameCell(names[index]!, width)}${line.join('')} ${limit != null && value > limit ? paint.bad(told) : told}`
  })
  const limited = bars.some(({ limit }) => limit != null) ? '; │ the limit' : ''
  const spread = bars.some(({ high }) => high != null) ? '; ░ up to the end of the interval' : ''
  return `${rows.join('\n')}\n${paint.faint(wrap(`${title}${limited}${spread}`, columns, ' '.repeat(width)))}\n`
}

function barOf(length: number): string {
  const eighths = Math.round(length * 8)
  return `${'█'.repeat(Math.floor(eighths / 8))}${EIGHTHS[eighths % 8]}`
}
