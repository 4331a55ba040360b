import type { Report, ReportInput } from '../facts/report.ts'
import { listed } from '../facts/sentences.ts'
import { spokenDate } from '../records/spoken-date.ts'
import { readTimeRange } from '../records/typed/time-range.ts'
import { pickingEvents } from '../reports/harvest/event.ts'
import { type HarvestData, harvest as report } from '../reports/harvest/report.ts'
import { renderHarvest } from '../reports/harvest/terminal.ts'
import type { Call } from './plumbing/call.ts'
import { type CommandBody, optionsOf } from './plumbing/command.ts'
import { UsageError } from './plumbing/errors.ts'

const KINDS = ['crop', 'picks', 'samples', 'stages', 'sprays'] as const

export const harvest: CommandBody = {
  options: optionsOf([
    ['--people NUMBER', 'number of pickers'],
    ['--hours NUMBER', 'hours of the picking day'],
    ['--date DATE', 'day of picking ("sunday"), else the first likely one'],
    ['--start TIME', 'when picking begins, else 08:00'],
    ['--rate QUANTITY', 'picked by one person in an hour, "40 kg/h"; else by past picks'],
    ['--bucket QUANTITY', 'fruit in a full bucket, "9 kg"'],
    ['--crate QUANTITY', 'fruit in a crate, "12 kg"'],
    ['--helpers FILE', 'write a page to send to those who help'],
    ['--ics FILE', 'write the picking day as a calendar file'],
  ]),
  html: true,
  examples: [
    ['rowbook harvest', 'every block in order, and in all'],
    ['rowbook harvest --block top-terrace --people 6', 'how long six people need'],
    [
      'rowbook harvest --date 2026-09-26 --start 09:00 --people 5 --helpers day.html --ics day.ics',
      'a page and a calendar event for friends',
    ],
  ],
  async run(call) {
    const options = readOptions(call)
    const input = call.open({ kinds: KINDS, history: KINDS })
    const made = report(input, options)
    await writeForHelpers(call, made, input)
    return call.print(made, renderHarvest, { page: () => import('../reports/harvest/page.ts') })
  },
}

const readOptions = (call: Call) => ({
  people: call.whole('people', 1, 1000),
  hours: call.number('hours', 0.5, 24),
  date: call.planned('date', call.place().asOf),
  start: readStart(call),
  rate: call.above('rate', 'kg/h'),
  bucket: call.above('bucket', 'kg'),
  crate: call.above('crate', 'kg'),
})

function readStart(call: Call): number | undefined {
  const text = call.text('start')
  if (text === undefined) return undefined
  const { range, fault } = readTimeRange(text)
  if (fault) throw new UsageError(`--start: ${fault.message}`, fault.help)
  if (range.end !== null) throw new UsageError('--start takes one time', 'write it like 08:30')
  return range.start
}

/** The page and the calendar file for helpers, where they are asked for. */
async function writeForHelpers(call: Call, made: Report<HarvestData>, input: ReportInput): Promise<void> {
  const [file, ics] = [call.text('helpers'), call.text('ics')]
  if (file === undefined && ics === undefined) return
  const { day } = made.data
  if (!day || day.steps.length === 0) throw noDay(made.data, input)
  if (file !== undefined) {
    await call.writePage(
      file,
      { ...made, cautions: [] },
      { page: () => import('../reports/harvest/page-helpers.ts'), printed: '' },
    )
  }
  if (ics === undefined) return
  const { CALENDAR_MARK, renderCalendar } = await import('../render/ical.ts')
  const now = call.text('as-of') === undefined ? call.env.now() : Date.parse(`${input.asOf}T00:00:00Z`)
  const events = { ...made, data: { events: pickingEvents(day, input) } }
  const text = renderCalendar(events, { site: input.ledger.vineyard.name, now })
  call.writeFile(ics, { text, mark: CALENDAR_MARK })
}

/** Why there is no day of picking to tell helpers of. */
function noDay({ day, blocks }: HarvestData, { ledger }: ReportInput): UsageError {
  const nameOf = (block: string) => ledger.blocks.get(block)?.name ?? block
  if (blocks.every(({ picked }) => picked !== null && !picked.rest)) {
    const said = listed(blocks.map(({ block }) => nameOf(block)))
    return new UsageError(`${said}: picked already`, 'name blocks that are still to pick with --block')
  }
  if (!day) return new UsageError('no picking day is known yet', 'name it: --date "20 Sep"')
  const why = day.left.map(({ block, why }) => `${nameOf(block)}: ${why}`).join('; ')
  return new UsageError(
    `no block can be picked on ${spokenDate(day.date)} (${why})`,
    'run `rowbook harvest`: it says what each block still needs',
  )
}
