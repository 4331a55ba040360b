import { namesOf } from '../facts/names.ts'
import type { CommandBody } from './plumbing/command.ts'
import { UsageError } from './plumbing/errors.ts'

const KINDS = ['crop', 'picks', 'samples', 'stages', 'sprays'] as const

export const harvest: CommandBody = {
  options: [
    { flags: '--people NUMBER', what: 'pickers that there are' },
    { flags: '--hours NUMBER', what: 'hours of the picking day' },
  ],
  html: true,
  examples: [
    ['rowbook harvest', 'every block in order, and in all'],
    ['rowbook harvest --block top-terrace --people 6', 'how long six people need'],
  ],
  async run(call) {
    const people = call.number('people', 1, 1000)
    if (people !== undefined && !Number.isInteger(people))
      throw new UsageError('--people takes a whole number')
    const hours = call.number('hours', 0.5, 24)
    const input = await call.open({ kinds: KINDS, history: KINDS })
    const { harvest: report } = await import('../reports/harvest/report.ts')
    const { renderHarvest } = await import('../reports/harvest/terminal.ts')
    const names = namesOf(input.ledger).blocks
    return call.print(
      report(input, { people, hours }),
      (result, style) => renderHarvest(result, names, style),
      { page: async () => (await import('../reports/harvest/page.ts')).harvestPage },
    )
  },
}
