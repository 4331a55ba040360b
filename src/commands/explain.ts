import { makeReport } from '../facts/report.ts'
import { cautionsFor, everything } from '../reports/explain/everything.ts'
import { explain as look } from '../reports/explain/report.ts'
import { renderExplained, renderNames } from '../reports/explain/terminal.ts'
import type { Call } from './plumbing/call.ts'
import type { CommandBody } from './plumbing/command.ts'
import { UsageError } from './plumbing/errors.ts'

export const explain: CommandBody = {
  arguments: [{ what: 'a figure, a finding, a topic or a JSON key; all names without it' }],
  examples: [
    ['rowbook explain', 'all that can be explained'],
    ['rowbook explain over-rate', 'a finding of check'],
    ['rowbook explain powdery-index', 'a figure'],
    ['rowbook explain PHI', 'a word of the trade'],
    ['rowbook explain legalFrom', 'a key of the JSON'],
    ['rowbook explain --html methods.html', 'all of it as one page to read and to print'],
  ],
  html: true,
  async run(call: Call) {
    const name = call.args[0]
    const result = name === undefined ? { found: everything() } : look(name)
    if (!result.found)
      throw new UsageError(
        `there is no figure or finding \`${name}\``,
        result.near ?? 'all names: rowbook explain',
      )
    const { found } = result
    const from = { asOf: call.reportDay(), season: null }
    return call.print(
      makeReport('explain', from, { data: { explained: found }, cautions: cautionsFor(found) }),
      ({ cautions }, style) =>
        name === undefined ? renderNames(found, style) : renderExplained(found, cautions, style),
      { page: () => import('../reports/explain/page.ts') },
    )
  },
}
