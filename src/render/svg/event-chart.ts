import type { DayChart } from '../../facts/charts/day-chart.ts'
import { addDays, dayOf } from '../../records/date.ts'
import { shortDate } from '../../records/spoken-date.ts'
import { html, type Markup } from '../html/markup.ts'
import { counted, sentences } from '../text.ts'
import { at, type Canvas, drawTwice, image, rightEdge, timeAxis, timeScale } from './canvas.ts'
import { legend } from './legend.ts'

const BAND = 26

/** Days on which something happened (values above 0) as bars on one band; unknown days are hollow. */
export function drawEventChart(id: string, chart: DayChart): Markup {
  if (chart.values.length === 0) return html``
  if (chart.values.every((value) => value === null))
    return html`<p class="quiet">${chart.title}: not known on any day.</p>\n`
  return drawTwice(id, chart.title, (canvas) => draw({ ...canvas, left: 14 }, chart))
}

function draw(canvas: Canvas, { title, from, values }: DayChart): Markup {
  const to = addDays(from, values.length - 1)
  const x = timeScale(canvas, from, to)
  const unknown = values.filter((value) => value === null).length
  const key = legend(canvas, [
    { shape: 'bar', role: 'fill-bad', text: 'yes' },
    { shape: 'area', role: 'spread', text: 'no' },
    unknown > 0 && { shape: 'hollow', role: 'quiet-line', text: 'not known' },
  ])
  const width = Math.max(1.5, at(x(1) - x(0)))
  const bars = values.map((value, index) => {
    if (value === 0) return null
    const left = at(x(dayOf(from) + index - 0.5))
    return html`<rect class="${value === null ? 'paper' : 'fill-bad'}" x="${left}" y="${key.height + 4}" width="${width}" height="${BAND}"/>`
  })
  const bottom = key.height + BAND + 8
  const days = values.flatMap((value, index) =>
    value !== null && value > 0 ? [shortDate(addDays(from, index))] : [],
  )
  const none = unknown > 0 ? 'On no known day.' : 'On no day.'
  const shows = sentences(
    days.length === 0 ? none : `On ${days.length} of ${values.length} days: ${days.join(', ')}.`,
    unknown > 0 && `Not known on ${counted(unknown, 'day')}.`,
  ).join(' ')
  const content = html`${key.content}<rect class="spread" x="14" y="${key.height + 4}" width="${rightEdge(canvas) - 14}" height="${BAND}"/>
${bars}${timeAxis(canvas, { from, to, y: bottom })}`
  return image(canvas, { height: bottom + 24, title, shows, content })
}
