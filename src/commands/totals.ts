import { lowest } from '../agronomy/statistics/extremes.ts'
import { FIRST_YEAR, LAST_YEAR } from '../records/date.ts'
import { firstSeasonOfTotals, totals as report } from '../reports/totals/report.ts'
import { renderTotals } from '../reports/totals/terminal.ts'
import { type CommandBody, optionsOf } from './plumbing/command.ts'
import { UsageError } from './plumbing/errors.ts'

export const totals: CommandBody = {
  options: optionsOf([['--seasons SPAN', 'several seasons side by side: 2024-2026']]),
  html: true,
  examples: [
    ['rowbook totals', 'this season'],
    ['rowbook totals --block top-terrace --seasons 2024-2026', 'one block over three seasons'],
  ],
  async run(call) {
    const span = spanOf(call.text('seasons'))
    const { season } = call.place()
    const input = call.open({
      kinds: ['sprays'],
      history: ['sprays'],
      from: (ledger) => firstSeasonOfTotals(ledger, lowest(span ?? [season])),
      ...(span ? { seasons: span } : {}),
    })
    return call.print(report(input, span ?? [input.season]), renderTotals, {
      page: () => import('../reports/totals/page.ts'),
    })
  },
}

/** `2024-2026` or `2025`, as a list of seasons. */
function spanOf(text: string | undefined): number[] | undefined {
  if (text === undefined) return undefined
  const match = /^(\d{4})(?:\s*-\s*(\d{4}))?$/.exec(text.trim())
  const first = Number(match?.[1])
  const last = Number(match?.[2] ?? match?.[1])
  if (!match || first < FIRST_YEAR || last > LAST_YEAR || last < first || last - first > 100)
    throw new UsageError(`--seasons takes a span of years, not \`${text}\``, 'write it as 2024-2026')
  return Array.from({ length: last - first + 1 }, (_, index) => first + index)
}
