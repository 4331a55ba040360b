import { basename, dirname } from 'node:path'
import type { Form } from '../reports/diary/forms.ts'
import type { Call } from './plumbing/call.ts'
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
    for (const other of ['json', 'html'])
      if (call.text('csv') !== undefined && (call.flag(other) || call.text(other) !== undefined))
        throw new UsageError(`--${other} and --csv go apart`, 'give one')
    const keepYears = call.number('keep', 1, 100)
    const seasons = typed.from !== undefined || typed.to !== undefined ? 'all' : [(await call.place()).season]
    const input = await call.open({ kinds: ['sprays', 'stages'], seasons })
    const [{ diary: report }, { seasonSpan }] = await Promise.all([
      import('../reports/diary/report.ts'),
      import('../ledger/read/seasons.ts'),
    ])
    const { first, last } = seasonSpan(input.ledger.vineyard, input.season)
    const { from = first, to = last } = typed
    if (from > to) throw new UsageError(`--from ${from} is after --to ${to}`, 'put the earlier day first')
    const form = (call.text('form') ?? 'full') as Form
    const result = report(input, { form, from, to, keepYears })
    const csv = call.text('csv')
    if (csv === undefined) {
      const { renderDiary } = await import('../reports/diary/terminal.ts')
      return call.print(result, renderDiary, {
        page: async () => (await import('../reports/diary/page.ts')).diaryPage,
      })
    }
    const { diaryCsv } = await import('../reports/diary/csv.ts')
    await writeNew(call, csv, diaryCsv(result, (await call.style()).units))
    return 0
  },
}

/** Writes to the file named, which must be new, or to stdout where that is `-`. @throws WriteFailed */
async function writeNew(call: Call, file: string, text: string): Promise<void> {
  if (file === '-') return call.env.out(text, 'data')
  const [{ newFile }, { placeOutside }, { uninterrupted }] = await Promise.all([
    import('../ledger/write/new-files.ts'),
    import('../ledger/write/own-file.ts'),
    import('./plumbing/uninterrupted.ts'),
  ])
  const path = placeOutside(call.env.cwd, file)
  uninterrupted(() => newFile({ root: dirname(path), file: basename(path), shown: file }, text))
}
