import type { SpanChart } from '../facts/charts/span-chart.ts'
import { daysBetween } from '../records/date.ts'
import { shortDate } from '../records/spoken-date.ts'
import { safeLine } from './safe.ts'
import { gridOf, nameWidth, overMonths, perCharacter } from './strip.ts'
import type { Style } from './style.ts'

/**
 * Spans of days as lines of block characters over a common time axis: light from end to end, full on the likely day.
 * Empty for a single span.
 */
export function renderSpans({ rows, title }: SpanChart, style: Style): string {
  const days = rows.flatMap(({ earliest, latest }) => [earliest, latest]).sort()
  const [from, to] = [days[0], days.at(-1)]
  if (rows.length < 2 || from === undefined || to === undefined) return ''
  const names = rows.map(({ name }) => safeLine(name))
  const width = nameWidth(names)
  const grid = gridOf(from, daysBetween(from, to) + 1, style.columns - width - 2)
  const at = (date: string) => Math.floor(daysBetween(from, date) / grid.perCharacter)
  const lines = rows.map(({ earliest, likely, latest }, index) => {
    const line = Array.from<unknown, string>({ length: grid.width }, (_, cell) =>
      cell >= at(earliest) && cell <= at(latest) ? '░' : ' ',
    )
    if (likely !== null) line[at(likely)] = '█'
    return [names[index]!, line.join('').trimEnd()] as const
  })
  const words = `${title}; █ likely; ${perCharacter(grid)} from ${shortDate(from)}`
  return `${overMonths(lines, { grid, width, words }, style)}\n`
}
