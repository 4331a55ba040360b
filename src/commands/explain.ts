import { type Call, toJson, UsageError } from './call.ts'
import type { Command } from './command.ts'

export const explain: Command = {
  name: 'explain',
  summary: 'say what a figure or a finding is, its formula, limits and source',
  arguments: [
    { form: '[NAME]', what: 'a figure, a finding or a key of the JSON; without it all are listed' },
  ],
  examples: [
    ['rowbook explain', 'all that can be explained'],
    ['rowbook explain over-rate', 'a finding of check'],
    ['rowbook explain powdery-index', 'a figure'],
    ['rowbook explain legalFrom', 'a key of the JSON'],
  ],
  async run(call: Call) {
    const [{ explain: look }, { everything }, render] = await Promise.all([
      import('../reports/explain.ts'),
      import('../reports/figures/index.ts'),
      import('../render/explain.ts'),
    ])
    const name = call.args[0]
    const result = name === undefined ? { found: everything() } : look(name)
    if (!result.found)
      throw new UsageError(`nothing is known of \`${name}\``, result.near ?? 'all names: rowbook explain')
    if (call.json) {
      const { makeReport } = await import('../reports/report.ts')
      const from = { asOf: call.date('as-of') ?? call.env.today(), season: null }
      call.env.out(await toJson(makeReport('explain', from, { data: { explained: result.found } })))
      return 0
    }
    const style = await call.style()
    call.env.out(
      name === undefined
        ? render.renderNames(result.found, style)
        : render.renderExplained(result.found, style),
    )
    return 0
  },
}
