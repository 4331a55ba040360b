import { namesOf } from '../facts/names.ts'
import type { Style } from '../render/style.ts'
import type { CommandBody } from './plumbing/command.ts'

export const season: CommandBody = {
  html: true,
  examples: [
    ['rowbook season', 'how the season stands, in a sentence or two from each report'],
    ['rowbook season --html season.html', 'all charts and tables in one file, to look at and print'],
  ],
  async run(call) {
    const history = ['sprays', 'samples', 'stages', 'picks', 'crop', 'scouting'] as const
    const input = await call.open({ history })
    const [{ season: report }, { renderSeason }, { seasonParts }] = await Promise.all([
      import('../reports/season/report.ts'),
      import('../reports/season/terminal.ts'),
      import('./plumbing/season-parts.ts'),
    ])
    const parts = seasonParts(input, namesOf(input.ledger))
    const whole = report(
      input,
      parts.map((part) => part.report),
    )
    const answersIn = (style: Style) => new Map(parts.map((part) => [part.report.report, part.answer(style)]))
    return call.print(whole, (result, style) => renderSeason(result, answersIn(style), style), {
      async page() {
        const { seasonPage } = await import('../reports/season/page.ts')
        const pages = await Promise.all(parts.map((part) => part.page()))
        return (_, from) =>
          seasonPage(
            input.season,
            pages.map((page) => page(from)),
          )
      },
    })
  },
}
