import { window as report } from '../reports/window/report.ts'
import { renderWindow } from '../reports/window/terminal.ts'
import type { Call } from './plumbing/call.ts'
import { type CommandBody, optionsOf } from './plumbing/command.ts'
import { UsageError } from './plumbing/errors.ts'
import { readForecast } from './weather/forecast.ts'

export const window: CommandBody = {
  options: optionsOf([
    ['--target TARGET', 'a target other than that of the record, like brix=21'],
    ['--forecast FILE', 'weather to come: CSV by days (date, min_c, max_c, rain_mm) or by hours'],
    ['--as-pressed', 'add the field-to-press difference of past picks'],
    ['--backtest', 'test the windows 28, 21, 14 and 7 days before each past pick'],
  ]),
  html: true,
  examples: [
    ['rowbook window', 'every block'],
    ['rowbook window --block top-terrace --target brix=21', 'another target'],
    ['rowbook window --backtest', 'how far off it would have been in past seasons'],
  ],
  async run(call) {
    const target = targetFrom(call)
    const forecast = readForecast(call)
    const kinds = ['samples', 'stages', 'sprays', 'picks'] as const
    const input = call.open({ kinds, history: kinds })
    const result = report(input, {
      target,
      forecast: forecast?.means,
      asPressed: call.flag('as-pressed'),
      backtest: call.flag('backtest'),
    })
    return call.print(result, renderWindow, { page: () => import('../reports/window/page.ts') })
  },
}

function targetFrom(call: Call): number | undefined {
  const text = call.text('target')
  if (text === undefined) return undefined
  const match = /^\s*brix\s*=\s*(\d+(?:\.\d+)?)\s*$/i.exec(text)
  if (!match) throw new UsageError(`--target takes a sugar, not \`${text}\``, 'write --target brix=21')
  const value = Number(match[1])
  if (value < 5 || value > 40)
    throw new UsageError(`--target brix=${value} is outside what is possible, 5 to 40`)
  return value
}
