import type { BarChart } from '../reports/charts/bar-chart.ts'
import { safeLine } from './safe.ts'
import type { Style } from './style.ts'
import { wrap } from './text.ts'

const EIGHTHS = ['', '▏', '▎', '▍', '▌', '▋', '▊', '▉']

/** Figures as lines of block characters from zero, light up to the end of the interval, with their limit as a stroke. */
export function renderBars({ title, unit, bars }: BarChart, { columns, paint }: Style): string {
  if (bars.length === 0) return ''
  const most = Math.max(...bars.flatMap(({ value, high, limit }) => [value, high ?? 0, limit ?? 0]), 0)
  const names = bars.map(({ name }) => safeLine(name))
  const label = Math.min(24, Math.max(...names.map((name) => name.length)) + 2)
  const room = Math.min(48, columns - label - 20)
  const at = (value: number) => (most === 0 ? 0 : (value / most) * room)
  const rows = bars.map(({ value, high, limit }, index) => {
    const line = [
      ...lengthOf(at(value))
        .padEnd(high == null ? 0 : Math.round(at(high)), '░')
        .padEnd(room + 1),
    ]
    const passed = limit != null && value > limit
    if (limit != null) line[Math.min(room, Math.round(at(limit)))] = '│'
    const told = `${figure(value)}${limit == null ? '' : ` of ${figure(limit)}`}`
    const name = names[index]!.slice(0, label - 2).padEnd(label)
    return `${name}${line.join('')} ${passed ? paint.bad(told) : told}`.trimEnd()
  })
  const limited = bars.some(({ limit }) => limit != null) ? '; │ the limit' : ''
  const spread = bars.some(({ high }) => high != null) ? '; ░ up to the end of the interval' : ''
  return `${rows.join('\n')}\n${paint.faint(wrap(`${title}, ${unit}${limited}${spread}`, columns, ' '.repeat(label)))}\n`
}

const lengthOf = (eighths: number) => {
  const whole = Math.round(eighths * 8)
  return `${'█'.repeat(Math.floor(whole / 8))}${EIGHTHS[whole % 8]}`
}

const figure = (value: number) => String(Number(value.toPrecision(3)))
