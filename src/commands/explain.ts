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
    const [{ explain: look }, { cautionsFor, everything }, render] = await Promise.all([
      import('../reports/explain/report.ts'),
      import('../reports/explain/everything.ts'),
      import('../reports/explain/terminal.ts'),
    ])
    const name = call.args[0]
    const result = name === undefined ? { found: everything() } : look(name)
    if (!result.found)
      throw new UsageError(
        `there is no figure or finding \`${name}\``,
        result.near ?? 'all names: rowbook explain',
      )
    const { makeReport } = await import('../facts/report.ts')
    const { found } = result
    const from = { asOf: await call.reportDay(), season: null }
    return call.print(
      makeReport('explain', from, { data: { explained: found }, cautions: cautionsFor(found) }),
      ({ cautions }, style) =>
        name === undefined
          ? render.renderNames(found, style)
          : render.renderExplained(found, cautions, style),
      { page: async () => (await import('../reports/explain/page.ts')).explainPage },
    )
  },
}
