import type { Report } from '../../facts/report.ts'
import { spokenDate } from '../../records/spoken-date.ts'
import { safeLine } from '../../render/safe.ts'
import type { Style } from '../../render/style.ts'
import { counted, underAnswer, wrap, wrapCommand } from '../../render/text.ts'
import type { TodayItem } from './item.ts'
import { oneAsk } from './one-ask.ts'
import type { TodayData } from './report.ts'

const WIDTH = 6

/** What is due, most urgent first, each with what to type next. */
export function renderToday(report: Report<TodayData>, style: Style): string {
  const { station } = report.data
  const items = station ? report.data.items : oneAsk(report.data.items)
  const day = spokenDate(report.asOf)
  if (items.length === 0) return `${day}: nothing recorded is due.\n`
  if (items[0]?.what === 'setup')
    return `${wrap(items[0].text, style.columns)}\n${wrapCommand(items[0].next, style.columns)}\n`
  const now = items.filter(({ urgency }) => urgency === 'now').length
  const soon = items.filter(({ urgency }) => urgency === 'soon').length
  const rest = items.length - now
  const first =
    now === 0
      ? soon > 0
        ? `${counted(soon, 'thing')} soon${rest > soon ? `, ${rest - soon} to plan` : ''}`
        : `nothing urgent, ${counted(rest, 'thing')} to plan`
      : `${counted(now, 'thing')} now${rest > 0 ? `, ${rest} to come` : ''}`
  const lines = items.map((item) => renderItem(item, style))
  return underAnswer(`${day}: ${first}.\n\n${lines.join('\n')}\n`, report.cautions, style.columns)
}

/** The sentence where it fits into one line of the room, else its short form. */
export function oneLine({ text, short }: TodayItem, room: number): string {
  const whole = safeLine(text)
  return whole.length <= room || short === null ? whole : safeLine(short)
}

function renderItem(item: TodayItem, { columns, paint }: Style): string {
  const { urgency, next, also } = item
  const colour = urgency === 'now' ? paint.bad : urgency === 'soon' ? paint.doubtful : paint.faint
  const body = wrap(oneLine(item, columns - WIDTH), columns, ' '.repeat(WIDTH)).slice(WIDTH)
  const todo = [next, ...also].map((one) =>
    paint.faint(renderNext(safeLine(one), columns, ' '.repeat(WIDTH))),
  )
  return [`${colour(urgency.padEnd(WIDTH))}${body}`, ...todo].join('\n')
}

/** What to do next: most often a command, else a sentence. */
export const renderNext = (next: string, columns: number, indent: string): string =>
  next.startsWith('rowbook ') ? wrapCommand(next, columns, indent) : wrap(next, columns, indent)
