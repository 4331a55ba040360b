import { highest, lowest } from '../agronomy/statistics/extremes.ts'
import type { CourseChart, CoursePanel } from '../facts/charts/course-chart.ts'
import { addDays, daysBetween } from '../records/date.ts'
import { figure } from './figure.ts'
import { safeLine } from './safe.ts'
import { blockOf, gridOf, overMonths, perCharacter } from './strip.ts'
import type { Style } from './style.ts'

/**
 * Draws measurements as lines of block characters over a common time axis, each from its lowest to its
 * highest value; below them the expected window: light from end to end, full on the likely day.
 */
export function renderCourse(chart: CourseChart, style: Style): string {
  const panels = chart.panels.filter((panel) => shownOf(panel).length > 1)
  if (panels.length === 0) return ''
  const labels = panels.map(labelOf)
  const width = highest(labels.map((label) => label.length)) + 2
  const grid = gridOf(chart.from, daysBetween(chart.from, chart.to) + 1, style.columns - width)
  const at = (date: string) => Math.floor(daysBetween(chart.from, date) / grid.perCharacter)
  const lines = panels.map((panel, index) => {
    const ends = endsOf(panel)
    const line = Array.from({ length: grid.width }, () => ' ')
    if (chart.window && !panel.curve) {
      const { earliest, likely, latest } = chart.window
      for (let day = earliest; day <= latest; day = addDays(day, 1)) line[at(day)] = '░'
      line[at(likely)] = '▓'
    }
    for (const { date, value } of shownOf(panel)) line[at(date)] = blockOf(value, ends)
    return [labels[index]!, line.join('').trimEnd()] as const
  })
  const window = chart.window ? `; ░ ${chart.window.name}, ▓ likely` : ''
  const words = `lowest to highest of each${window}; ${perCharacter(grid)}`
  return `${overMonths(lines, { grid, width, words }, style)}\n`
}

/** The series of a panel: its curve if it has one, else the measurements. */
const shownOf = ({ curve, points }: CoursePanel) => curve ?? points

function endsOf(panel: CoursePanel): { low: number; high: number } {
  const values = shownOf(panel).map(({ value }) => value)
  return { low: lowest(values), high: highest(values) }
}

function labelOf(panel: CoursePanel): string {
  const { low, high } = endsOf(panel)
  const places = panel.curve ? 0 : panel.unit === '' ? 2 : 1
  const span = `${figure(low, places)}-${figure(high, places)}`
  return `  ${safeLine(panel.name)} ${span}${panel.unit === '' ? '' : ` ${panel.unit}`}`
}
