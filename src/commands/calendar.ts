import { dayOf } from '../records/date.ts'
import { CALENDAR_MARK, renderCalendar } from '../render/ical.ts'
import { safe } from '../render/safe.ts'
import { counted } from '../render/text.ts'
import { calendar as report } from '../reports/calendar/report.ts'
import { type CommandBody, optionsOf } from './plumbing/command.ts'

export const calendar: CommandBody = {
  options: optionsOf([
    ['--to FILE', 'write to this file, like vineyard.ics, else to stdout'],
    ['--past', 'include what is over'],
    ['--force', 'replace a file that rowbook did not make'],
  ]),
  examples: [
    ['rowbook calendar --to vineyard.ics', 'import it again later: the events are updated'],
    ['rowbook calendar --block top-terrace', 'one block, to stdout'],
  ],
  async run(call) {
    const kinds = ['sprays', 'samples', 'stages', 'picks', 'scouting'] as const
    const input = call.open({ kinds, history: kinds })
    const result = report(input, { past: call.flag('past') })
    for (const what of result.data.missing)
      call.env.err(`Not in the calendar: ${safe(what.replace(/\.$/, ''))}.\n`)
    // With a typed day the file is the same whenever it is made.
    const now = call.text('as-of') === undefined ? call.env.now() : dayOf(input.asOf) * 86_400_000
    const text = () => renderCalendar(result, { site: input.ledger.vineyard.name, now })
    const file = call.text('to')
    if (call.json || file === undefined) return call.print(result, text)
    const holds = `, ${counted(result.data.events.length, 'event')}`
    call.writeFile(file, { text: text(), mark: CALENDAR_MARK, holds })
    return 0
  },
}
