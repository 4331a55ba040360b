import { ready as report } from '../reports/ready/report.ts'
import { renderReady } from '../reports/ready/terminal.ts'
import { type CommandBody, optionsOf } from './plumbing/command.ts'
import { errorsShown } from './plumbing/line-reader.ts'
import { readForecast } from './weather/forecast.ts'

export const ready: CommandBody = {
  options: optionsOf([
    ['--all', 'one table of the vineyard, earliest first'],
    ['--as-pressed', 'add the field-to-press difference of past picks'],
    [
      '--forecast FILE',
      'weather to come: CSV by days (date, min_c, max_c, rain_mm) or by hours, as weather.csv',
    ],
  ]),
  html: true,
  examples: [
    ['rowbook ready --all', 'the vineyard in one table'],
    ['rowbook ready --block top-terrace', 'one page on one block'],
  ],
  async run(call) {
    const forecast = readForecast(call)
    const history = ['sprays', 'samples', 'stages', 'picks', 'crop', 'scouting'] as const
    const input = call.openAnyway({ history })
    const result = report(input, { forecast, asPressed: call.flag('as-pressed') })
    const failed = result.data.blocks.some(({ gates }) => gates.some(({ state }) => state === 'fail'))
    const broken = result.findings.length > 0 && input.ledger.findings.some(({ level }) => level === 'error')
    if (broken && !call.json) {
      call.env.err(errorsShown(input.ledger, input.ledger.findings, call.style()))
    }
    return call.print(
      result,
      (_, style, { blocks }) => renderReady(result, { names: blocks, all: call.flag('all') }, style),
      {
        page: () => import('../reports/ready/page.ts'),
        status: failed || broken ? 1 : 0,
      },
    )
  },
}
