import type { Finding } from '../ledger/finding.ts'
import type { Command } from './command.ts'

export const check: Command = {
  name: 'check',
  summary: 'find what is incomplete, impossible, mistyped or not allowed',
  options: [{ flags: '--all', what: 'every season (also what is done without --season)' }],
  examples: [
    ['rowbook check', 'the whole book'],
    ['rowbook check --season 2026', 'one season and what it rests on'],
  ],
  async run(call) {
    const one = call.text('season') !== undefined && !call.flag('all')
    const input = await call.openAnyway(one ? { history: ['sprays'] } : { seasons: 'all' })
    const { check: report } = await import('../reports/check.ts')
    const result = report(input, new Set(one ? [input.season] : input.ledger.seasons))
    const { renderCheck } = await import('../render/check.ts')
    const { lineReader } = await import('./line-reader.ts')
    const lineOf: (finding: Finding) => string | null = lineReader(input.ledger.root)
    return call.print(
      result,
      (_, style) => renderCheck(result, lineOf, style),
      result.data.errors > 0 ? 1 : 0,
    )
  },
}
