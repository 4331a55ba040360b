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

/** Measured figures as dots with their intervals, one panel each over a common time axis; the window is drawn in all. */
export function drawCourseChart(id: string, chart: CourseChart): Markup {
  const panels = chart.panels.filter(({ points, curve }) => points.length > 0 || curve)
  if (panels.length === 0) return html``
  return html`<figure>
${drawTwice(id, (canvas) => draw(canvas, { ...chart, panels }))}<figcaption>${chart.title}</figcaption>
</figure>
`
}

function draw(canvas: Canvas, chart: CourseChart): Markup {
  const { from, to, panels } = chart
  const x = timeScale(canvas, from, to)
  const key = legend(canvas, legendOf(chart), 0)
  const bottom = key.height + panels.length * (HEAD + PANEL[canvas.form])
  const marks = chart.marks ?? []
  const placeOf = ({ date, label }: (typeof marks)[number]) => ({ label, x: at(x(dayOf(date))), bottom })
  const done = marks
    .filter((mark) => mark.done)
    .map((mark) => doneMark({ ...placeOf(mark), top: key.height + 9 }))
  const bounds = marks
    .filter((mark) => !mark.done)
    .map((mark) => boundMark({ ...placeOf(mark), top: key.height + 4 }))
  const content = html`${key.content}${windowOf(chart, { x, top: key.height + 4, bottom })}${done}${panels.map(
    (panel, index) =>
      drawPanel(canvas, panel, {
        x,
        from,
        to,
        top: key.height + index * (HEAD + PANEL[canvas.form]),
        role: ROLES[index % 3]!,
      }),
  )}${bounds}${timeAxis(canvas, { from, to, y: bottom })}`
  return image(canvas, { height: bottom + 24, title: chart.title, shows: shows(chart), content })
}

/** A day from which something is allowed, as a dashed line over all panels. */
function boundMark({ label, x, top, bottom }: Parameters<typeof doneMark>[0]): Markup {
  return html`<g><title>${label}</title><line class="line bad-line dashed" x1="${x}" x2="${x}" y1="${top}" y2="${bottom}"/></g>
`
}

interface Place {
  x: Scale
  from: string
  to: string
  top: number
  role: (typeof ROLES)[number]
}

function drawPanel(canvas: Canvas, panel: CoursePanel, { x, from, to, top, role }: Place): Markup {
  const values = [...panel.points, ...(panel.trend?.points ?? [])].flatMap(({ value, low, high }) => [
    value,
    low ?? value,
    high ?? value,
  ])
  if (panel.limit !== undefined) values.push(panel.limit)
  if (panel.curve) values.push(0, 100)
  if (panel.target) values.push(panel.target.low, panel.target.high)
  const y = valueScale(lowest(values), highest(values), [top + HEAD + PANEL[canvas.form] - 10, top + HEAD])
  const { target, line } = panel
  const ends = line && [line.from, line.to].map((end) => ({ x: at(x(dayOf(end.date))), y: at(y(end.value)) }))
  const inside = line && line.from.date >= from && line.to.date <= to
  const dots = panel.points.map((point) => {
    const left = at(x(dayOf(point.date)))
    return html`${point.low !== null && point.high !== null && html`<line class="line ${role}" x1="${left}" x2="${left}" y1="${at(y(point.low))}" y2="${at(y(point.high))}"/>`}<circle class="hollow ${role}" cx="${left}" cy="${at(y(point.value))}" r="3.5"><title>${shortDate(point.date)}: ${round(point.value)} ${panel.unit}</title></circle>
`
  })
  return html`<text class="name" x="${canvas.left}" y="${top + 18}">${shorten(`${panel.name}${panel.unit && `, ${panel.unit}`}`, canvas.width - canvas.left)}</text>
${
  target &&
  html`<rect class="band" x="${canvas.left}" y="${at(y(target.high))}" width="${rightEdge(canvas) - canvas.left}" height="${at(Math.max(1.5, y(target.low) - y(target.high)))}" opacity="0.75"/>
`
}${trendOf(panel, { x, y, role })}${curveOf(panel, { x, y, role })}${valueAxis(canvas, y, 3)}${ends && inside && html`<line class="line dashed thin ${role}" x1="${ends[0]!.x}" y1="${ends[0]!.y}" x2="${ends[1]!.x}" y2="${ends[1]!.y}"/>\n`}${panel.limit !== undefined && html`<line class="line ${panel.limitName ? 'second' : 'bad-line'} dashed thin" x1="${canvas.left}" x2="${rightEdge(canvas)}" y1="${at(y(panel.limit))}" y2="${at(y(panel.limit))}"/>\n`}${dots}`
}

/** A fitted or predicted course as a dashed line within its interval. */
function trendOf(
  { trend }: CoursePanel,
  { x, y, role }: { x: Scale; y: Scale; role: Place['role'] },
): Content {
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
function curveOf(
  { curve, unit }: CoursePanel,
  { x, y, role }: { x: Scale; y: Scale; role: Place['role'] },
): Content {
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
  if (chart.panels.some(({ line }) => line)) entries.push({ shape: 'dashes', role: 'first', text: 'trend' })
  if (chart.panels.some(({ target }) => target)) entries.push({ shape: 'band', role: 'band', text: 'target' })
  const limits = chart.panels.filter(({ limit }) => limit !== undefined)
  for (const text of new Set(limits.map(({ limitName }) => limitName ?? 'threshold')))
    entries.push({ shape: 'dashes', role: text === 'threshold' ? 'bad-line' : 'second', text })
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
