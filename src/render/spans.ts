import { daysBetween, shortDate } from '../records/date.ts'
import type { SpanChart } from '../reports/charts/span-chart.ts'
import { safeLine } from './safe.ts'
import { gridOf, months, perCharacter } from './strip.ts'
import type { Style } from './style.ts'
import { wrap } from './text.ts'

/** Spans of days as lines of block characters over one common time: light from end to end, full on the likely day; nothing of one alone. */
export function renderSpans({ rows, title }: SpanChart, { columns, paint }: Style): string {
  const days = rows.flatMap(({ earliest, latest }) => [earliest, latest]).sort()
  const [from, to] = [days[0], days.at(-1)]
  if (rows.length < 2 || from === undefined || to === undefined) return ''
  const names = rows.map(({ name }) => safeLine(name))
  const label = Math.min(24, Math.max(...names.map((name) => name.length)) + 2)
  const grid = gridOf(from, daysBetween(from, to) + 1, columns - label - 2)
  const at = (date: string) => Math.floor(daysBetween(from, date) / grid.perCharacter)
  const lines = rows.map(({ earliest, likely, latest }, index) => {
    const line = Array.from<unknown, string>({ length: grid.width }, (_, cell) =>
      cell >= at(earliest) && cell <= at(latest) ? '░' : ' ',
    )
    if (likely !== null) line[at(likely)] = '█'
    return `${names[index]!.slice(0, label - 2).padEnd(label)}${line.join('')}`.trimEnd()
  })
  const indent = ' '.repeat(label)
  const words = `${title}; █ likely; ${perCharacter(grid)} from ${shortDate(from)}`
  const axis = months(grid)
  return `${[...lines, ...(axis === '' ? [] : [`${indent}${axis}`]), paint.faint(wrap(words, columns, indent))].join('\n')}\n`
}
