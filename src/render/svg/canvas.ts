import { scaleLinear } from 'd3-scale'
import { dayOf, type IsoDate, isoDate } from '../../records/date.ts'
import { shortDate } from '../../records/spoken-date.ts'
import { type Content, html, type Markup } from '../html/markup.ts'

/** Each chart is drawn once for wide screens and print, and once for phones, so that letters keep their size. */
export interface Canvas {
  /** Begins the ids of the drawing; unique on its page. */
  id: string
  width: number
  /** Room at the left for the figures of the scale. */
  left: number
  form: 'wide' | 'narrow'
}

const RIGHT = 14

/** Both drawings of a chart, of which a style shows one, above their caption. */
export function drawTwice(id: string, caption: Content, draw: (canvas: Canvas) => Markup): Markup {
  const wide = draw({ id: `${id}-w`, width: 704, left: 44, form: 'wide' })
  const narrow = draw({ id: `${id}-n`, width: 328, left: 40, form: 'narrow' })
  return html`<figure>
${wide}${narrow}<figcaption>${caption}</figcaption>
</figure>
`
}

/** An image that a screen reader reads by its title and what it shows. */
export function image(
  { id, width, form }: Canvas,
  about: { height: number; title: string; shows: string; content: Content },
): Markup {
  return html`<svg class="${form}" viewBox="0 0 ${width} ${about.height}" role="img" aria-labelledby="${id}-t ${id}-d">
<title id="${id}-t">${about.title}</title>
<desc id="${id}-d">${about.shows}</desc>
${about.content}</svg>
`
}

/** A coordinate with as many digits as a screen can show. */
export const at = (value: number): number => Math.round(value * 10) / 10

export type Scale = (value: number) => number

/** The time scale of a canvas: day numbers to the middle of each day. */
export function timeScale(canvas: Canvas, from: IsoDate, to: IsoDate): Scale {
  return scaleLinear()
    .domain([dayOf(from) - 0.5, dayOf(to) + 0.5])
    .range([canvas.left, canvas.width - RIGHT])
}

/** The ends of the value scale, widened to round figures. */
export function valueScale(low: number, high: number, [bottom, top]: readonly [number, number]) {
  return scaleLinear()
    .domain([low, high === low ? low + 1 : high])
    .nice(4)
    .range([bottom, top])
}

/** Marks along the time scale: months where the span is long, else weeks or days. */
export function timeAxis(canvas: Canvas, span: { from: IsoDate; to: IsoDate; y: number }): Markup {
  const { from, to, y } = span
  const x = timeScale(canvas, from, to)
  const ticks = timeTicks(from, to, canvas.form === 'wide' ? 9 : 5)
  return html`<line class="axis" x1="${canvas.left}" x2="${canvas.width - RIGHT}" y1="${y}" y2="${y}"/>
${ticks.map(
  ({ day, label }) => html`<line class="axis" x1="${at(x(day))}" x2="${at(x(day))}" y1="${y}" y2="${y + 4}"/>
<text class="middle" x="${at(Math.max(20, Math.min(x(day), canvas.width - 20)))}" y="${y + 17}">${label}</text>
`,
)}`
}

function timeTicks(from: IsoDate, to: IsoDate, most: number): { day: number; label: string }[] {
  const [first, last] = [dayOf(from), dayOf(to)]
  if (last - first > 80) {
    const starts: { day: number; label: string }[] = []
    for (let day = first; day <= last; day += 1)
      if (isoDate(day).endsWith('-01')) starts.push({ day, label: shortDate(isoDate(day)).slice(2) })
    const every = Math.ceil(starts.length / most)
    return starts.filter((_, index) => index % every === 0)
  }
  const step = [1, 2, 3, 7, 14, 28].find((days) => (last - first) / days < most) ?? 28
  const ticks: { day: number; label: string }[] = []
  for (let day = first; day <= last; day += step) ticks.push({ day, label: shortDate(isoDate(day)) })
  return ticks
}

/** Horizontal lines at round values, each with its figure at the left. */
export function valueAxis(canvas: Canvas, scale: ReturnType<typeof valueScale>, most = 4): Markup {
  const show = scale.tickFormat(most)
  return html`${scale.ticks(most).map((value) => {
    const y = at(scale(value))
    return html`<line class="grid" x1="${canvas.left}" x2="${canvas.width - RIGHT}" y1="${y}" y2="${y}"/>
<text class="end" x="${canvas.left - 6}" y="${y + 4}">${show(value).replaceAll(',', ' ').replace('−', '-')}</text>
`
  })}`
}

export const rightEdge = (canvas: Canvas): number => canvas.width - RIGHT

/** A day on which something was done, such as a spray: a triangle at the top and a line down to the axis. */
export function doneMark(mark: { label: string; x: number; top: number; bottom: number }): Markup {
  const { label, x, top, bottom } = mark
  return html`<g><title>${label}</title><line class="grid" x1="${x}" x2="${x}" y1="${top}" y2="${bottom}"/><path class="fill-third" d="M${at(x - 4)} ${at(top - 7)}h8l-4 7z"/></g>
`
}
