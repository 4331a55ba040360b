import { highest, lowest } from '../../agronomy/statistics/extremes.ts'
import type { CourseChart, CoursePanel } from '../../facts/charts/course-chart.ts'
import { dayOf } from '../../records/date.ts'
import { shortDate } from '../../records/spoken-date.ts'
import { type Content, html, type Markup } from '../html/markup.ts'
import {
  at,
  type Canvas,
  doneMark,
  drawTwice,
  image,
  rightEdge,
  type Scale,
  timeAxis,
  timeScale,
  valueAxis,
  valueScale,
} from './canvas.ts'
import { type LegendEntry, legend } from './legend.ts'
import { shorten } from './letters.ts'

const PANEL = { wide: 104, narrow: 84 }
const HEAD = 30
const ROLES = ['first', 'second', 'third'] as const
type Role = (typeof ROLES)[number]

/** Measured figures as dots with their intervals, one panel each over a common time axis; the window is drawn in all. */
export function drawCourseChart(id: string, chart: CourseChart): Markup {
  const panels = chart.panels.filter(({ points, curve }) => points.length > 0 || curve)
  if (panels.length === 0) return html``
  return drawTwice(id, chart.title, (canvas) => draw(canvas, { ...chart, panels }))
}

function draw(canvas: Canvas, chart: CourseChart): Markup {
  const { from, to, panels, marks = [] } = chart
  const x = timeScale(canvas, from, to)
  const key = legend(canvas, legendOf(chart))
  const height = HEAD + PANEL[canvas.form]
  const bottom = key.height + panels.length * height
  const top = key.height + 4
  const done = marks
    .filter((mark) => mark.done)
    .map(({ label, date }) => doneMark({ label, x: at(x(dayOf(date))), top: key.height + 9, bottom }))
  /** Days from which something is allowed, as dashed lines over all panels. */
  const bounds = marks
    .filter((mark) => !mark.done)
    .map(({ label, date }) => {
      const left = at(x(dayOf(date)))
      return html`<g><title>${label}</title><line class="line bad-line dashed" x1="${left}" x2="${left}" y1="${top}" y2="${bottom}"/></g>
`
    })
  const drawn = panels.map((panel, index) =>
    drawPanel(canvas, panel, { x, top: key.height + index * height, role: ROLES[index % 3]! }),
  )
  const content = html`${key.content}${windowOf(chart, { x, top, bottom })}${done}${drawn}${bounds}${timeAxis(canvas, { from, to, y: bottom })}`
  return image(canvas, { height: bottom + 24, title: chart.title, shows: shows(chart), content })
}

function drawPanel(
  canvas: Canvas,
  panel: CoursePanel,
  { x, top, role }: { x: Scale; top: number; role: Role },
): Markup {
  const { name, unit, points, target, limit } = panel
  const values = [...points, ...(panel.trend?.points ?? [])].flatMap(({ value, low, high }) => [
    value,
    low ?? value,
    high ?? value,
  ])
  if (limit !== undefined) values.push(limit)
  if (panel.curve) values.push(0, 100)
  if (target) values.push(target.low, target.high)
  const y = valueScale(lowest(values), highest(values), [top + HEAD + PANEL[canvas.form] - 10, top + HEAD])
  const [left, right] = [canvas.left, rightEdge(canvas)]
  const dots = points.map(({ date, value, low, high }) => {
    const spot = at(x(dayOf(date)))
    return html`${low !== null && high !== null && html`<line class="line ${role}" x1="${spot}" x2="${spot}" y1="${at(y(low))}" y2="${at(y(high))}"/>`}<circle class="hollow ${role}" cx="${spot}" cy="${at(y(value))}" r="3.5"><title>${shortDate(date)}: ${round(value)} ${unit}</title></circle>
`
  })
  return html`<text class="name" x="${left}" y="${top + 18}">${shorten(`${name}${unit && `, ${unit}`}`, canvas.width - left)}</text>
${
  target &&
  html`<rect class="band" x="${left}" y="${at(y(target.high))}" width="${right - left}" height="${at(Math.max(1.5, y(target.low) - y(target.high)))}" opacity="0.75"/>
`
}${trendOf(panel, { x, y, role })}${curveOf(panel, { x, y, role })}${valueAxis(canvas, y, 3)}${limit !== undefined && html`<line class="line bad-line dashed thin" x1="${left}" x2="${right}" y1="${at(y(limit))}" y2="${at(y(limit))}"/>\n`}${dots}`
}

interface Drawn {
  x: Scale
  y: Scale
  role: Role
}

/** A fitted or predicted course as a dashed line within its interval. */
function trendOf({ trend }: CoursePanel, { x, y, role }: Drawn): Content {
  if (!trend) return null
  const spots = trend.points.map(({ date, value, low, high }) => ({
    left: at(x(dayOf(date))),
    value: at(y(value)),
    low: at(y(low ?? value)),
    high: at(y(high ?? value)),
  }))
  const edge = [
    ...spots.map(({ left, high }) => [left, high]),
    ...spots.toReversed().map(({ left, low }) => [left, low]),
  ]
  return html`<path class="spread" d="M${edge.map((spot) => spot.join(' ')).join('L')}Z"/>
<path class="line dashed thin ${role}" fill="none" d="M${spots.map(({ left, value }) => `${left} ${value}`).join('L')}"/>
`
}

/** A daily curve as one line; its first and last values show where a pointer rests. */
function curveOf({ curve, unit }: CoursePanel, { x, y, role }: Drawn): Content {
  if (!curve) return null
  const spots = curve.map(({ date, value }) => `${at(x(dayOf(date)))} ${at(y(value))}`)
  const [first, last] = [curve[0]!, curve.at(-1)!]
  return html`<path class="line ${role}" fill="none" d="M${spots.join('L')}"><title>${shortDate(first.date)}: ${first.value} ${unit}; ${shortDate(last.date)}: ${last.value} ${unit}</title></path>
`
}

function windowOf(
  { window }: CourseChart,
  { x, top, bottom }: { x: Scale; top: number; bottom: number },
): Content {
  if (!window) return null
  const left = at(x(dayOf(window.earliest) - 0.5))
  const right = at(x(dayOf(window.latest) + 0.5))
  const likely = at(x(dayOf(window.likely)))
  return html`<rect class="span" x="${left}" y="${top}" width="${at(right - left)}" height="${bottom - top}"/>
<line class="axis" x1="${likely}" x2="${likely}" y1="${top}" y2="${bottom}"/>
`
}

function legendOf(chart: CourseChart): LegendEntry[] {
  const spread = chart.panels.some(({ points }) => points.some(({ low }) => low !== null))
  const measured = spread ? 'measured, 95 % interval' : 'measured'
  const entries: LegendEntry[] = [{ shape: 'dot', role: 'first', text: measured }]
  for (const name of new Set(chart.panels.flatMap(({ trend }) => trend?.name ?? [])))
    entries.push({ shape: 'dashes', role: 'first', text: name })
  if (chart.panels.some(({ target }) => target)) entries.push({ shape: 'band', role: 'band', text: 'target' })
  if (chart.panels.some(({ limit }) => limit !== undefined))
    entries.push({ shape: 'dashes', role: 'bad-line', text: 'threshold' })
  if (chart.window) entries.push({ shape: 'area', role: 'span', text: chart.window.name })
  for (const [text, done] of new Map((chart.marks ?? []).map((mark) => [mark.label, mark.done])))
    entries.push(
      done ? { shape: 'mark', role: 'fill-third', text } : { shape: 'dashes', role: 'bad-line', text },
    )
  return entries
}

const round = (value: number) => Number(value.toPrecision(3))

function shows({ panels, window, marks }: CourseChart): string {
  const parts = panels.map(({ name, unit, points, curve }) => {
    if (curve) {
      const [begin, close] = [curve[0]!, curve.at(-1)!]
      return `${name}: ${begin.value} ${unit} on ${shortDate(begin.date)}, ${close.value} ${unit} on ${shortDate(close.date)}.`
    }
    const [first, last] = [points[0]!, points.at(-1)!]
    const end = `${round(last.value)} ${unit} on ${shortDate(last.date)}`
    return points.length === 1
      ? `${name}: ${end}.`
      : `${name}: from ${round(first.value)} ${unit} on ${shortDate(first.date)} to ${end}, ${points.length} days measured.`
  })
  if (window)
    parts.push(
      `${window.name}: ${shortDate(window.earliest)} to ${shortDate(window.latest)}, likely ${shortDate(window.likely)}.`,
    )
  for (const { date, label } of marks ?? []) parts.push(`${label}: ${shortDate(date)}.`)
  return parts.join(' ')
}
