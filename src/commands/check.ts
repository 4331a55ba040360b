import { check as report } from '../reports/check/report.ts'
import { renderCheck } from '../reports/check/terminal.ts'
import type { Reads } from './plumbing/call.ts'
import { type CommandBody, optionsOf } from './plumbing/command.ts'
import { lineReader } from './plumbing/line-reader.ts'

export const check: CommandBody = {
  options: optionsOf([
    ['--all', 'every season, as without --season'],
    ['--changed [REV]', 'only files that differ from a revision in git, else the last commit'],
    ['--staged', 'only what the next commit would change, as git holds it for that commit'],
  ]),
  examples: [
    ['rowbook check', 'the whole ledger'],
    ['rowbook check --season 2026', 'one season, and the records that it uses'],
    ['rowbook check --changed', 'before a commit: only what is not committed, judged with all the rest'],
  ],
  async run(call) {
    const one = call.text('season') !== undefined && !call.flag('all')
    // Only these two ask git, and what starts a program takes long to load.
    const asksGit = call.flag('staged') || call.flag('changed') || call.text('changed') !== undefined
    const changed = asksGit ? await (await import('./check/differing.ts')).whatDiffers(call) : undefined
    if (changed === null) {
      call.env.err('The next commit holds no ledger here, so nothing was checked.\n')
      return 0
    }
    const { files, season } = call.place()
    const reads: Reads = one ? { history: ['sprays'] } : { seasons: 'all' }
    const input = call.openAnyway(reads)
    const seasons = new Set(one ? [season] : input.ledger.seasons)
    const result = report(input, seasons, changed)
    const status = result.data.errors > 0 ? 1 : 0
    return call.print(result, (_, style) => renderCheck(result, lineReader(files), style), { status })
  },
}
