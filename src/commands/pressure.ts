import type { DownyPrimaryVariant } from '../agronomy/disease/downy-primary-rules.ts'
import { pressureOfFile, pressure as report } from '../reports/pressure/report.ts'
import { renderPressure } from '../reports/pressure/terminal.ts'
import { type CommandBody, optionsOf } from './plumbing/command.ts'
import { UsageError } from './plumbing/errors.ts'
import { WEATHER_FILE_OPTIONS, weatherFileOf } from './weather/file.ts'

export const pressure: CommandBody = {
  options: [
    ...WEATHER_FILE_OPTIONS,
    ...optionsOf([
      ['--latitude DEG', 'degrees north, negative in the south; with --weather, for the nights'],
      ['--budbreak DATE', 'from when the powdery index runs; with --weather'],
      [
        '--downy RULE',
        'rule of downy primary infection, else ten-ten-twentyfour',
        {
          choices: ['ten-ten-twentyfour', 'three-tens', 'three-tens-minimum', 'mean-above-12', 'little-rain'],
        },
      ],
      ['--downy-rain MM', 'mm of rain in place of that of the rule, else from vineyard.yaml'],
      ['--downy-temperature DEG', '°C in place of that of the rule, else from vineyard.yaml'],
      ['--from DATE', 'first day'],
      ['--to DATE', 'last day'],
    ]),
  ],
  html: true,
  examples: [
    ['rowbook pressure', 'this season up to today'],
    ['rowbook pressure --weather station.csv', 'a weather file, without a ledger'],
  ],
  async run(call) {
    const options = {
      variant: call.text('downy') as DownyPrimaryVariant | undefined,
      limits: {
        rain: call.number('downy-rain', 0, 200),
        temperature: call.number('downy-temperature', 0, 30),
      },
      from: call.date('from'),
      to: call.date('to'),
    }
    if (options.from !== undefined && options.to !== undefined && options.to < options.from)
      throw new UsageError(`--to ${options.to} is before --from ${options.from}`)
    const page = () => import('../reports/pressure/page.ts')
    const weather = weatherFileOf(call)
    if (weather) {
      const asOf = call.reportDay()
      const latitude = call.number('latitude', -90, 90)
      return call.print(
        pressureOfFile(weather, { ...options, asOf, latitude, budbreak: call.date('budbreak') }),
        renderPressure,
        { page },
      )
    }
    const input = call.open({
      kinds: ['stages', 'scouting', 'sprays', 'picks'],
      history: ['stages', 'scouting'],
    })
    return call.print(report(input, options), renderPressure, { page })
  },
}
