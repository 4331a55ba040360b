import { scaleLinear } from 'd3-scale'
import { highest } from '../../agronomy/statistics/extremes.ts'
import type { BarChart } from '../../facts/charts/bar-chart.ts'
import { html, type Markup } from '../html/markup.ts'
import { groupDigits } from '../text.ts'
import { at, type Canvas, drawTwice, image, rightEdge } from './canvas.ts'
import { type LegendEntry, legend } from './legend.ts'
import { shorten, textWidth } from './letters.ts'

const ROW = 46
const LEFT = 2

/** Bars from zero, each under its name, with interval and limit. */
export function drawBarChart(id: string, chart: BarChart): Markup {
  if (chart.bars.length === 0) return html``
  return html`<figure>
${drawTwice(id, (canvas) => draw({ ...canvas, left: LEFT }, chart))}<figcaption>${chart.title}, ${chart.unit}</figcaption>
</figure>
`
}

function draw(canvas: Canvas, { title, unit, bars }: BarChart): Markup {
  const most = Math.max(highest(bars.flatMap(({ value, high, limit }) => [value, high ?? 0, limit ?? 0])), 0)
  const x = scaleLinear()
    .domain([0, most === 0 ? 1 : most])
    .range([LEFT, rightEdge(canvas) - 4])
  const key = legend(canvas, legendOf(bars), 0)
  const rows = bars.map((bar, index) => {
    const top = key.height + index * ROW
    const passed = bar.limit !== null && bar.limit !== undefined && bar.value > bar.limit
    const figures = `: ${figure(bar.value)} ${unit}${bar.limit == null ? '' : ` of ${figure(bar.limit)}`}${passed ? ', over the limit' : ''}`
    const text = `${shorten(bar.name, rightEdge(canvas) - LEFT - textWidth(figures))}${figures}`
    return html`<text class="name" x="${LEFT}" y="${top + 14}">${text}</text>
<rect class="${passed ? 'fill-bad' : 'fill-first'}" x="${LEFT}" y="${top + 20}" width="${at(Math.max(0.5, x(bar.value) - LEFT))}" height="9"/>
${
  bar.low != null &&
  bar.high != null &&
  html`<line class="line second" x1="${at(x(bar.low))}" x2="${at(x(bar.high))}" y1="${top + 34}" y2="${top + 34}"/><path class="line second" d="M${at(x(bar.low))} ${top + 30}v8M${at(x(bar.high))} ${top + 30}v8"/>
`
}${bar.limit != null && html`<line class="line bad-line" x1="${at(x(bar.limit))}" x2="${at(x(bar.limit))}" y1="${top + 17}" y2="${top + 34}"/>\n`}`
  })
  const shows = bars
    .map((bar) => {
      const range = bar.low != null && bar.high != null ? ` (${figure(bar.low)} to ${figure(bar.high)})` : ''
      const limit = bar.limit == null ? '' : `, limit ${figure(bar.limit)}`
      return `${bar.name}: ${figure(bar.value)} ${unit}${range}${limit}.`
    })
    .join(' ')
  const content = html`${key.content}${rows}`
  return image(canvas, { height: key.height + bars.length * ROW, title, shows, content })
}

const figure = (value: number) => groupDigits(Number(value.toPrecision(3)))

function legendOf(bars: BarChart['bars']): LegendEntry[] {
  const entries: LegendEntry[] = []
  if (bars.some(({ low, high }) => low != null && high != null))
    entries.push({ shape: 'line', role: 'second', text: '95 % interval' })
  if (bars.some(({ limit }) => limit != null))
    entries.push({ shape: 'line', role: 'bad-line', text: 'limit' })
  return entries
}
