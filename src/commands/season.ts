import type { Command } from './plumbing/command.ts'

export const season: Command = {
  name: 'season',
  summary: 'the answer of every report at once; with --html the whole season on one page',
  html: true,
  examples: [
    ['rowbook season', 'how the season stands, in a sentence or two from each report'],
    ['rowbook season --html season.html', 'all charts and tables in one file, to look at and print'],
  ],
  async run(call) {
    const history = ['sprays', 'samples', 'stages', 'picks', 'crop'] as const
    const input = await call.open({ history })
    const [{ season: report }, { renderSeason }] = await Promise.all([
      import('../reports/season/report.ts'),
      import('../reports/season/terminal.ts'),
    ])
    const { blocks, products } = input.ledger
    const names = {
      blocks: new Map([...blocks].map(([id, { name }]) => [id, name])),
      products: new Map([...products].map(([id, { name }]) => [id, name])),
    }
    return call.print(report(input), (result, style) => renderSeason(result, names, style))
  },
}
