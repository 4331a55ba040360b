import type { Names } from '../facts/names.ts'
import type { Report, ReportInput } from '../facts/report.ts'
import type { Page, PageInput } from '../render/html/page.ts'
import { PLAIN, type Style } from '../render/style.ts'
import { firstParagraph } from '../render/text.ts'
import { season as report } from '../reports/season/report.ts'
import { renderSeason } from '../reports/season/terminal.ts'
import { Call, type Printer, type PrintMore } from './plumbing/call.ts'
import type { CommandBody } from './plumbing/command.ts'

/** The commands whose answers make up a season, in the order in which a grower asks. */
const PARTS = [
  'ready', 'window', 'ripeness', 'crop', 'harvest', 'scouting', 'cover', 'pressure', 'totals', 'heat',
] as const // biome-ignore format: a list of words reads better in few lines

/** Width for answers whose lines a page joins again. */
const PAGE_COLUMNS = 100

export const season: CommandBody = {
  html: true,
  examples: [
    ['rowbook season', 'how the season stands, in a sentence or two from each report'],
    ['rowbook season --html season.html', 'all charts and tables in one file, to look at and print'],
  ],
  async run(call, commands) {
    const history = ['sprays', 'samples', 'stages', 'picks', 'crop', 'scouting'] as const
    const input = call.open({ history })
    const parts = (await commands(PARTS)).map((command) => ({ command, asked: new PartCall(call, input) }))
    for (const { command, asked } of parts) await command.run(asked, commands)
    const made = parts.map(({ asked }) => asked.part!)
    const whole = report(
      input,
      made.map((part) => part.report),
    )
    const answersIn = (style: Style, names: Names) =>
      new Map(made.map((part) => [part.report.report, part.answer(style, names)]))
    return call.print(whole, (_, style, names) => renderSeason(whole, answersIn(style, names), style), {
      async page() {
        const { seasonPage } = await import('../reports/season/page.ts')
        const pages = await Promise.all(made.map((part) => part.page()))
        const page = (_: unknown, from: PageInput) => {
          const style = { columns: PAGE_COLUMNS, units: from.units, paint: PLAIN }
          const answers = [...answersIn(style, from.names)]
          return seasonPage(
            input.season,
            answers.map(([name, answer], at) => ({ name, answer, page: pages[at]!(from) })),
          )
        }
        return { page }
      },
    })
  },
}

/** One report of a season: its data, its answer in a sentence or two, and its page. */
interface SeasonPart {
  report: Report<unknown>
  answer(style: Style, names: Names): string
  page(): Promise<(from: PageInput) => Page>
}

/** A call of another command, on the ledger that is open already, which takes what would be printed. */
class PartCall extends Call {
  part: SeasonPart | undefined

  constructor(
    private readonly season: Call,
    private readonly input: ReportInput,
  ) {
    super(season.command, [], { all: true }, season.env)
  }

  override place() {
    return this.season.place()
  }

  override openAnyway() {
    return this.input
  }

  override async print<Data>(
    report: Report<Data>,
    render: Printer<Data>,
    { page }: PrintMore<Data>,
  ): Promise<number> {
    this.part = {
      report,
      answer: (style, names) => firstParagraph(render(report, style, names)),
      async page() {
        const { page: pageOf } = await page!()
        return (from) => pageOf(report, from)
      },
    }
    return 0
  }
}
