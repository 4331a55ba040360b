import { area, line } from 'd3-shape'
import type { DayChart } from '../../facts/charts/day-chart.ts'
import { addDays, dayOf } from '../../records/date.ts'
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
import { drawProtection, PROTECTION_KINDS } from './protection-bar.ts'

const PLOT = 190
/** Room above the plot: the upper half of a figure of the scale, or the marks of sprays. */
const ABOVE = 10
const LANE = 17

/** One value a day as a line that breaks where nothing is known, with marks above it and spans below. */
export function drawDayChart(id: string, chart: DayChart): Markup {
  const known = chart.values.some((value) => value !== null)
  if (chart.values.length === 0) return html``
  if (!known && !chart.spans?.length)
    return html`<p class="quiet">${chart.title}: not known on any day.</p>\n`
  const gaps = known ? chart.values.includes(null) && '; no line where not known' : ': not known on any day'
  return drawTwice(id, [caption(chart), gaps], (canvas) => draw(canvas, chart))
}

function caption({ title, unit }: DayChart): string {
  return unit === '' ? title : `${title}, ${unit}`
}

function draw(canvas: Canvas, chart: DayChart): Markup {
  const { from, values } = chart
  const to = addDays(from, values.length - 1)
  const key = legend(canvas, legendOf(chart))
  const marks = (chart.marks ?? []).filter(({ date }) => date >= from && date <= to)
  const top = key.height + (marks.length > 0 ? LANE : ABOVE)
  const x = timeScale(canvas, from, to)
  const known = [...values, ...(chart.beside?.highest ?? [])].filter((value) => value !== null)
  // Where nothing is known there is nothing to plot, and the spans stand alone.
  const bottom = top + (known.length > 0 ? PLOT : 0)
  const high = Math.max(chart.high, ...known)
  const y = valueScale(Math.min(chart.low, ...known), high, [bottom, top])
  const first = dayOf(from)
  const points = values.map((value, index) => ({ day: first + index, value }))
  const path = line<{ day: number; value: number | null }>()
    .defined(({ value }) => value !== null)
    .x(({ day }) => at(x(day)))
    .y(({ value }) => at(y(value!)))
  const clamp = (date: string) => (date < from ? from : date > to ? to : date)
  const axisY = bottom + (chart.spans?.length ? LANE : 0)
  const content = html`${key.content}${known.length > 0 && html`${bandsOf(canvas, chart, y)}${valueAxis(canvas, y)}`}${besideOf(chart, { x, y, first })}<path class="line first" d="${path(points) ?? ''}"/>
${lonely(points, x, y)}${marks.map(({ date, label }) => doneMark({ label, x: at(x(dayOf(date))), top: top - 3, bottom }))}${chart.spans?.map(
  (span) => {
    const left = at(x(dayOf(clamp(span.from)) - 0.5))
    const width = at(Math.max(x(dayOf(clamp(span.to)) + 0.5) - left, 1.5))
    return drawProtection(span.kind, { x: left, y: bottom + 4, width }, spanText(span))
  },
)}${timeAxis(canvas, { from, to, y: axisY })}`
  return image(canvas, { height: axisY + 24, title: caption(chart), shows: shows(chart), content })
}

/** Dots for values between two unknown days, which no line would show. */
function lonely(points: { day: number; value: number | null }[], x: Scale, y: Scale): Content {
  const isKnown = (index: number) => (points[index]?.value ?? null) !== null
  return points
    .filter((_, index) => isKnown(index) && !isKnown(index - 1) && !isKnown(index + 1))
    .map(
      ({ day, value }) => html`<circle class="fill-first" r="2" cx="${at(x(day))}" cy="${at(y(value!))}"/>\n`,
    )
}

const spanText = ({ kind, from, to }: NonNullable<DayChart['spans']>[number]): string =>
  `${kind} ${shortDate(from)} to ${shortDate(to)}`

function bandsOf(canvas: Canvas, chart: DayChart, y: Scale): Content {
  return chart.bands?.map(({ name, from, to }) => {
    const top = at(y(Math.min(to, chart.high)))
    const height = at(y(from)) - top
    return html`${name === 'moderate' && html`<rect class="band" x="${canvas.left}" y="${top}" width="${rightEdge(canvas) - canvas.left}" height="${at(height)}"/>`}<text x="${canvas.left + 5}" y="${top + 14}">${name}</text>
`
  })
}

function besideOf({ beside }: DayChart, { x, y, first }: { x: Scale; y: Scale; first: number }): Content {
  if (!beside) return null
  const rows = beside.values.map((value, index) => ({
    day: first + index,
    value,
    low: beside.lowest[index] ?? null,
    high: beside.highest[index] ?? null,
  }))
  type Row = (typeof rows)[number]
  const spread = area<Row>()
    .defined(({ low, high }) => low !== null && high !== null)
    .x(({ day }) => at(x(day)))
    .y0(({ low }) => at(y(low!)))
    .y1(({ high }) => at(y(high!)))
  const mean = line<Row>()
    .defined(({ value }) => value !== null)
    .x(({ day }) => at(x(day)))
    .y(({ value }) => at(y(value!)))
  return html`<path class="spread" d="${spread(rows) ?? ''}"/>
<path class="line second dashed thin" d="${mean(rows) ?? ''}"/>
`
}

function legendOf(chart: DayChart): LegendEntry[] {
  const entries: LegendEntry[] = []
  if (chart.beside)
    entries.push(
      { shape: 'line', role: 'first', text: 'this season' },
      { shape: 'dashes', role: 'second', text: `${chart.beside.name}, mean` },
      { shape: 'area', role: 'spread', text: 'lowest to highest' },
    )
  const labels = new Set(chart.marks?.map(({ label }) => label))
  if (labels.size > 0)
    entries.push({ shape: 'mark', role: 'fill-third', text: labels.size === 1 ? [...labels][0]! : 'sprayed' })
  for (const kind of PROTECTION_KINDS)
    if (chart.spans?.some((span) => span.kind === kind))
      entries.push({ shape: 'protection', role: kind, text: kind })
  return entries
}

function shows({ values, from, unit, marks, spans, beside }: DayChart): string {
  const known = values.flatMap((value, index) =>
    value === null ? [] : [{ value, date: addDays(from, index) }],
  )
  const last = known.at(-1)
  const most = known.toSorted((a, b) => b.value - a.value)[0]
  const figure = (value: number) => `${Number(value.toPrecision(3))}${unit === '' ? '' : ` ${unit}`}`
  const parts =
    last && most
      ? [
          `From ${shortDate(from)} to ${shortDate(addDays(from, values.length - 1))}; greatest ${figure(most.value)} on ${shortDate(most.date)}, last ${figure(last.value)} on ${shortDate(last.date)}.`,
        ]
      : ['No value is known.']
  if (known.length < values.length)
    parts.push(`${values.length - known.length} of ${values.length} days are unknown.`)
  if (beside) parts.push(`Drawn against ${beside.name}.`)
  if (marks?.length)
    parts.push(`Marked: ${marks.map(({ date, label }) => `${label} ${shortDate(date)}`).join(', ')}.`)
  if (spans?.length) parts.push(`Spans: ${spans.map(spanText).join(', ')}.`)
  return parts.join(' ')
}
