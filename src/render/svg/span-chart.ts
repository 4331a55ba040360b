import type { SpanChart } from '../../facts/charts/span-chart.ts'
import { addDays, dayOf } from '../../records/date.ts'
import { shortDate } from '../../records/spoken-date.ts'
import { html, type Markup } from '../html/markup.ts'
import { at, type Canvas, drawTwice, image, timeAxis, timeScale } from './canvas.ts'
import { legend } from './legend.ts'
import { shorten, textWidth } from './letters.ts'

const ROW = 40

/** Spans of days as bars, the likely day as a dot. */
export function drawSpanChart(id: string, chart: SpanChart): Markup {
  if (chart.rows.length === 0) return html``
  return drawTwice(id, chart.title, (canvas) => draw({ ...canvas, left: 14 }, chart))
}

function draw(canvas: Canvas, { title, rows }: SpanChart): Markup {
  const dates = rows.flatMap(({ earliest, latest }) => [earliest, latest]).sort()
  const [from, to] = [addDays(dates[0]!, -2), addDays(dates.at(-1)!, 2)]
  const x = timeScale(canvas, from, to)
  const key = legend(canvas, [
    { shape: 'bar', role: 'fill-first', text: 'earliest to latest' },
    { shape: 'dot', role: 'first', text: 'likely' },
  ])
  const bottom = key.height + rows.length * ROW + 4
  const drawn = rows.map(({ name, earliest, likely, latest }, index) => {
    const top = key.height + index * ROW
    const [left, right] = [at(x(dayOf(earliest) - 0.5)), at(x(dayOf(latest) + 0.5))]
    const dates = `, ${shortDate(earliest)} to ${shortDate(latest)}`
    const text = `${shorten(name, canvas.width - 22 - textWidth(dates))}${dates}`
    const isAtEnd = left + textWidth(text) > canvas.width
    return html`<text class="name${isAtEnd && ' end'}" x="${isAtEnd ? canvas.width - 8 : left}" y="${top + 15}">${text}</text>
<rect class="fill-first" x="${left}" y="${top + 22}" width="${at(right - left)}" height="6"/>
${likely && html`<circle class="hollow first" cx="${at(x(dayOf(likely)))}" cy="${top + 25}" r="5"/>\n`}`
  })
  const shows = rows.map(
    ({ name, earliest, likely, latest }) =>
      `${name}: ${shortDate(earliest)} to ${shortDate(latest)}${likely ? `, likely ${shortDate(likely)}` : ''}.`,
  )
  const content = html`${key.content}${drawn}${timeAxis(canvas, { from, to, y: bottom })}`
  return image(canvas, { height: bottom + 24, title, shows: shows.join(' '), content })
}
