import { scaleLinear } from 'd3-scale'
import { type BarChart, highestOf } from '../../facts/charts/bar-chart.ts'
import { html, type Markup } from '../html/markup.ts'
import { groupDigits } from '../text.ts'
import { at, type Canvas, drawTwice, image, rightEdge } from './canvas.ts'
import { legend } from './legend.ts'
import { shorten, textWidth } from './letters.ts'

const ROW = 46
const LEFT = 2

/** Bars from zero, each under its name, with interval and limit. */
export function drawBarChart(id: string, chart: BarChart): Markup {
  if (chart.bars.length === 0) return html``
  const caption = `${chart.title}, ${chart.unit}`
  return drawTwice(id, caption, (canvas) => draw({ ...canvas, left: LEFT }, chart))
}

function draw(canvas: Canvas, { title, unit, bars }: BarChart): Markup {
  const most = highestOf(bars)
  const x = scaleLinear()
    .domain([0, most === 0 ? 1 : most])
    .range([LEFT, rightEdge(canvas) - 4])
  const key = legend(canvas, [
    bars.some(({ low, high }) => low != null && high != null) && {
      shape: 'line',
      role: 'second',
      text: '95 % interval',
    },
    bars.some(({ limit }) => limit != null) && { shape: 'line', role: 'bad-line', text: 'limit' },
  ])
  const rows = bars.map((bar, index) => {
    const top = key.height + index * ROW
    const passed = bar.limit != null && bar.value > bar.limit
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
