import { label as report } from '../reports/label/report.ts'
import { renderLabel } from '../reports/label/terminal.ts'
import type { CommandBody } from './plumbing/command.ts'

export const label: CommandBody = {
  examples: [
    ['rowbook label', 'before the season, with the labels in your hand'],
    ['rowbook label --as-of 2027-03-01', 'as it will be on a day'],
  ],
  async run(call) {
    const input = call.open({ kinds: ['sprays'] })
    const result = report(input)
    return call.print(result, renderLabel, { status: result.data.lapsed > 0 ? 1 : 0 })
  },
}
