import { type CommandBody, optionsOf } from './plumbing/command.ts'
import { UsageError } from './plumbing/errors.ts'

export const diary: CommandBody = {
  html: true,
  options: optionsOf([
    ['--form FORM', 'whose form: full, eu, uk or us', { choices: ['full', 'eu', 'uk', 'us'] }],
    ['--from DATE', 'first day, else that of the season'],
    ['--to DATE', 'last day, else that of the season'],
    ['--keep YEARS', 'years to keep it, where your authority asks for more'],
    ['--csv FILE', 'write it as CSV; - for stdout'],
  ]),
  examples: [
    ['rowbook diary --form eu', 'the record of the season in the form of the European Union'],
    ['rowbook diary --form eu --html record.html', 'as a page to print'],
    ['rowbook diary --form us --from 2026-06-01 --csv june.csv', 'as a table for a spreadsheet'],
  ],
  async run(call) {
    const typed = { from: await call.date('from'), to: await call.date('to') }
    const given = typed.from !== undefined || typed.to !== undefined
    for (const other of ['json', 'html'])
      if (call.text('csv') !== undefined && (call.flag(other) || call.text(other) !== undefined))
        throw new UsageError(`--${other} and --csv go apart`, 'give one')
    const keepYears = call.number('keep', 1, 100)
    const input = await call.open({ kinds: ['sprays', 'stages'], ...(given ? { seasons: 'all' } : {}) })
    const [{ diary: report }, { seasonSpan }] = await Promise.all([
      import('../reports/diary/report.ts'),
      import('../ledger/read/seasons.ts'),
    ])
    const { first, last } = seasonSpan(input.ledger.vineyard, input.season)
    const from = typed.from ?? first
    const to = typed.to ?? last
    if (from > to) throw new UsageError(`--from ${from} is after --to ${to}`, 'put the earlier day first')
    const form = (call.text('form') ?? 'full') as 'full' | 'eu' | 'uk' | 'us'
    const result = report(input, { form, from, to, keepYears })
    const csv = call.text('csv')
    if (csv === undefined) {
      const { renderDiary } = await import('../reports/diary/terminal.ts')
      return call.print(result, renderDiary, {
        page: async () => (await import('../reports/diary/page.ts')).diaryPage,
      })
    }
    const [{ diaryCsv }, { writeOut }] = await Promise.all([
      import('../reports/diary/csv.ts'),
      import('./plumbing/write-out.ts'),
    ])
    const { units } = await call.style(input.ledger.vineyard.units)
    writeOut(call, csv, diaryCsv(result, units))
    return 0
  },
}
