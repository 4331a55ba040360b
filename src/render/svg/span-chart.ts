import type { SpanChart } from '../../facts/charts/span-chart.ts'
import { addDays, dayOf } from '../../records/date.ts'
import { shortDate } from '../../records/spoken-date.ts'
import { html, type Markup } from '../html/markup.ts'
import { at, type Canvas, drawTwice, image, timeAxis, timeScale } from './canvas.ts'
import { type LegendEntry, legend } from './legend.ts'
import { shorten, textWidth } from './letters.ts'

const ROW = 40

/** Spans of days as bars, the likely day as a dot, and days that matter as lines across all. */
export function drawSpanChart(id: string, chart: SpanChart): Markup {
  if (chart.rows.length === 0) return html``
  return html`<figure>
${drawTwice(id, (canvas) => draw(canvas, chart))}<figcaption>${chart.title}</figcaption>
</figure>
`
}

function draw(canvas: Canvas, { title, rows, marks }: SpanChart): Markup {
  const dates = [
    ...rows.flatMap(({ earliest, latest }) => [earliest, latest]),
    ...marks.map(({ date }) => date),
  ].sort()
  const [from, to] = [addDays(dates[0]!, -2), addDays(dates.at(-1)!, 2)]
  const own = { ...canvas, left: 14 }
  const x = timeScale(own, from, to)
  const entries: LegendEntry[] = [
    { shape: 'bar', role: 'fill-first', text: 'earliest to latest' },
    { shape: 'dot', role: 'first', text: 'likely' },
    ...[...new Set(marks.map(({ label }) => label))].map(
      (text): LegendEntry => ({ shape: 'dashes', role: 'bad-line', text }),
    ),
  ]
  const key = legend(own, entries, 0)
  const bottom = key.height + rows.length * ROW + 4
  const drawn = rows.map((row, index) => {
    const top = key.height + index * ROW
    const [left, right] = [at(x(dayOf(row.earliest) - 0.5)), at(x(dayOf(row.latest) + 0.5))]
    const dates = `, ${shortDate(row.earliest)} to ${shortDate(row.latest)}`
    const text = `${shorten(row.name, canvas.width - 22 - textWidth(dates))}${dates}`
    const beside =
      left + textWidth(text) > canvas.width
        ? { x: canvas.width - 8, anchor: 'end' }
        : { x: left, anchor: 'start' }
    return html`<text class="name${beside.anchor === 'end' && ' end'}" x="${beside.x}" y="${top + 15}">${text}</text>
<rect class="${row.strong ? 'fill-first' : 'fill-quiet'}" x="${left}" y="${top + 22}" width="${at(right - left)}" height="6"/>
${row.likely && html`<circle class="hollow first" cx="${at(x(dayOf(row.likely)))}" cy="${top + 25}" r="5"/>\n`}`
  })
  const lines = marks.map(({ date }) => {
    const left = at(x(dayOf(date)))
    return html`<line class="line bad-line dashed" x1="${left}" x2="${left}" y1="${key.height}" y2="${bottom}"/>\n`
  })
  const shows = [
    ...rows.map(
      ({ name, earliest, likely, latest }) =>
        `${name}: ${shortDate(earliest)} to ${shortDate(latest)}${likely ? `, likely ${shortDate(likely)}` : ''}.`,
    ),
    ...marks.map(({ date, label }) => `${label}: ${shortDate(date)}.`),
  ].join(' ')
  const content = html`${key.content}${lines}${drawn}${timeAxis(own, { from, to, y: bottom })}`
  return image(own, { height: bottom + 24, title, shows, content })
}
