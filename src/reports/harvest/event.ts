import { type CalendarEvent, uidOf } from '../../facts/calendar-event.ts'
import type { ReportInput } from '../../facts/report.ts'
import { clockText } from '../../records/typed/time-range.ts'
import { instantOf } from '../../records/zone.ts'
import type { HarvestDay } from './day.ts'

/** The picking day as events of a calendar, one for each day it takes; none where no block is picked on it. */
export function pickingEvents(day: HarvestDay, { ledger, season }: ReportInput): CalendarEvent[] {
  const { vineyard } = ledger
  const at = (date: string, minutes: number) =>
    new Date(instantOf(date, minutes, vineyard.timezone)).toISOString()
  const nameOf = (id: string) => ledger.blocks.get(id)?.name ?? id
  return [...new Set(day.steps.map(({ date }) => date))].map((date) => {
    const steps = day.steps.filter((step) => step.date === date)
    const lines = steps.map(
      ({ block, from, to }) => `${clockText(from)} to ${clockText(to)} ${nameOf(block)}`,
    )
    return {
      uid: uidOf(vineyard, ['picking', date, String(season)]),
      kind: 'picking',
      blocks: steps.map(({ block }) => block),
      start: at(date, steps[0]!.from),
      end: at(date, steps.at(-1)!.to),
      allDay: false,
      title: `Picking at ${vineyard.name}`,
      detail: lines.join('\n'),
    }
  })
}
