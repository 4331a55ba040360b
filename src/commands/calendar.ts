import { dayOf } from '../records/date.ts'
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
    const input = await call.open({
      kinds: ['sprays', 'samples', 'stages', 'picks', 'scouting'],
      history: ['samples', 'stages', 'sprays', 'picks', 'scouting'],
    })
    const [{ calendar: report }, { CALENDAR_MARK, renderCalendar }] = await Promise.all([
      import('../reports/calendar/report.ts'),
      import('../render/ical.ts'),
    ])
    const result = report(input, { past: call.flag('past') })
    const { safe } = await import('../render/safe.ts')
    for (const what of result.data.missing)
      call.env.err(`Not in the calendar: ${safe(what.replace(/\.$/, ''))}.\n`)
    const file = call.text('to')
    // With a typed day the file is the same whenever it is made.
    const now = call.text('as-of') === undefined ? call.env.now() : dayOf(input.asOf) * 86_400_000
    if (call.json || file === undefined)
      return call.print(result, () => renderCalendar(result, { site: input.ledger.vineyard.name, now }))
    const { writeOwnFile } = await import('../ledger/write/own-file.ts')
    const text = renderCalendar(result, { site: input.ledger.vineyard.name, now })
    const force = call.flag('force')
    writeOwnFile({ cwd: call.env.cwd, file, text, mark: CALENDAR_MARK, force })
    const { counted } = await import('../render/text.ts')
    call.env.err(`Written: ${safe(file)}, ${counted(result.data.events.length, 'event')}\n`)
    return 0
  },
}
