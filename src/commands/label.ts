import type { Command } from './plumbing/command.ts'

export const label: Command = {
  name: 'label',
  summary: 'say which labels to read again: old, lapsing, or incomplete in the book',
  examples: [
    ['rowbook label', 'before the season, with the labels in your hand'],
    ['rowbook label --as-of 2027-03-01', 'as it will be on a day'],
  ],
  async run(call) {
    const input = await call.open({ kinds: ['sprays'] })
    const [{ label: report }, { renderLabel }] = await Promise.all([
      import('../reports/label/report.ts'),
      import('../reports/label/terminal.ts'),
    ])
    const result = report(input)
    return call.print(result, renderLabel, { status: result.data.lapsed > 0 ? 1 : 0 })
  },
}
