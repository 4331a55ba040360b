import { basename, dirname } from 'node:path'
import { seasonSpan } from '../ledger/read/seasons.ts'
import { newFile } from '../ledger/write/new-files.ts'
import { placeOutside } from '../ledger/write/own-file.ts'
import { diaryCsv } from '../reports/diary/csv.ts'
import type { Form } from '../reports/diary/forms.ts'
import { diary as report } from '../reports/diary/report.ts'
import { renderDiary } from '../reports/diary/terminal.ts'
import type { Call } from './plumbing/call.ts'
import { type CommandBody, optionsOf } from './plumbing/command.ts'
import { UsageError } from './plumbing/errors.ts'
import { uninterrupted } from './plumbing/uninterrupted.ts'

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
    const typed = { from: call.date('from'), to: call.date('to') }
    for (const other of ['json', 'html'])
      if (call.text('csv') !== undefined && (call.flag(other) || call.text(other) !== undefined))
        throw new UsageError(`--${other} and --csv go apart`, 'give one')
    const keepYears = call.number('keep', 1, 100)
    const seasons = typed.from !== undefined || typed.to !== undefined ? 'all' : [call.place().season]
    const input = call.open({ kinds: ['sprays', 'stages'], seasons })
    const { first, last } = seasonSpan(input.ledger.vineyard, input.season)
    const { from = first, to = last } = typed
    if (from > to) throw new UsageError(`--from ${from} is after --to ${to}`, 'put the earlier day first')
    const form = (call.text('form') ?? 'full') as Form
    const result = report(input, { form, from, to, keepYears })
    const csv = call.text('csv')
    if (csv === undefined) {
      return call.print(result, renderDiary, { page: () => import('../reports/diary/page.ts') })
    }
    writeNew(call, csv, diaryCsv(result, call.style().units))
    return 0
  },
}

/** Writes to the file named, which must be new, or to stdout where that is `-`. @throws WriteFailed */
function writeNew(call: Call, file: string, text: string): void {
  if (file === '-') {
    call.env.out(text, 'data')
    return
  }
  const path = placeOutside(call.env.cwd, file)
  uninterrupted(() => newFile({ root: dirname(path), file: basename(path), shown: file }, text))
}
