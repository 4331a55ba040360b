import { seasonNamed } from '../ledger/read/seasons.ts'
import { compare as report } from '../reports/compare/report.ts'
import { renderCompare } from '../reports/compare/terminal.ts'
import type { CommandBody } from './plumbing/command.ts'
import { UsageError } from './plumbing/errors.ts'

export const compare: CommandBody = {
  html: true,
  arguments: [{ what: 'two or more seasons' }],
  examples: [
    ['rowbook compare 2025 2026', 'this season against the last'],
    ['rowbook compare 2024 2025 2026 --block top-terrace', 'one block over three'],
  ],
  async run(call) {
    const seasons = call.args.map((text) => {
      const season = seasonNamed(text)
      if (season !== null) return season
      throw new UsageError(`\`${text}\` is no season`, 'write years, like 2025 2026')
    })
    if (new Set(seasons).size < 2 || new Set(seasons).size < seasons.length)
      throw new UsageError('compare takes two or more different seasons', 'write `rowbook compare 2025 2026`')
    const input = call.open({ seasons: 'all' })
    const missing = seasons.find((season) => !input.ledger.seasons.includes(season))
    if (missing !== undefined)
      throw new UsageError(`there is no season ${missing}`, `it has: ${input.ledger.seasons.join(', ')}`)
    const result = report(
      input,
      seasons.sort((a, b) => a - b),
    )
    if (call.texts('block').length > 0)
      result.data.figures = result.data.figures.filter(({ block }) => block !== null)
    return call.print(result, renderCompare, { page: () => import('../reports/compare/page.ts') })
  },
}
