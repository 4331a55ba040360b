import { today as report } from '../reports/today/report.ts'
import { renderToday } from '../reports/today/terminal.ts'
import { type CommandBody, optionsOf } from './plumbing/command.ts'
import { readForecast } from './weather/forecast.ts'

export const today: CommandBody = {
  html: true,
  examples: [
    ['rowbook today', 'most urgent first, each with what to type next'],
    ['rowbook today --html today.html', 'the same as a page for the phone'],
    ['rowbook today --as-of 2026-07-01 --block top-terrace', 'one block, on that day'],
  ],
  options: optionsOf([
    [
      '--forecast FILE',
      'weather to come: CSV by days (date, min_c, max_c, rain_mm) or by hours, as weather.csv',
    ],
  ]),
  async run(call) {
    const forecast = readForecast(call)
    const history = ['sprays', 'samples', 'stages', 'picks', 'scouting'] as const
    const input = call.open({ history })
    const result = report(input, { forecast, isPast: call.text('as-of') !== undefined })
    return call.print(result, renderToday, { page: () => import('../reports/today/page.ts') })
  },
}
