import type { DegreeDayMethod } from '../agronomy/heat/degree-days.ts'
import { heatOfFile, heat as reportOf } from '../reports/heat/report.ts'
import { renderHeat } from '../reports/heat/terminal.ts'
import type { Call } from './plumbing/call.ts'
import { type CommandBody, optionsOf } from './plumbing/command.ts'
import { UsageError } from './plumbing/errors.ts'
import { WEATHER_FILE_OPTIONS, weatherFileOf } from './weather/file.ts'

export const heat: CommandBody = {
  options: [
    ...WEATHER_FILE_OPTIONS,
    ...optionsOf([
      ['--latitude DEG', 'degrees north, negative in the south; with --weather'],
      ['--base DEG', 'lower threshold in °C, else 10'],
      ['--upper DEG', 'upper threshold in °C, cut off horizontally; else none'],
      [
        '--method NAME',
        'how a day is counted, else average',
        { choices: ['average', 'single-sine', 'single-triangle'] },
      ],
      ['--from DATE', 'first day, else the start of the growing season or of the file'],
      ['--to DATE', 'last day, else that of the growing season or of the file'],
    ]),
  ],
  html: true,
  examples: [
    ['rowbook heat', 'this season up to today'],
    ['rowbook heat --weather station.csv --latitude 47.6', 'a weather file, without a ledger'],
  ],
  async run(call) {
    const options = {
      base: call.number('base', -20, 40),
      upper: call.number('upper', -20, 60),
      method: call.text('method') as DegreeDayMethod | undefined,
      from: call.date('from'),
      to: call.date('to'),
    }
    checkOptions(options)
    const page = () => import('../reports/heat/page.ts')
    const file = weatherFileOf(call)
    if (file) {
      const about = { latitude: latitudeOf(call), asOf: call.reportDay() }
      return call.print(heatOfFile(file, { ...options, ...about }), renderHeat, { page })
    }
    const input = call.open({ kinds: ['stages'] })
    return call.print(reportOf(input, options), renderHeat, { page })
  },
}

type Typed = Partial<Record<'base' | 'upper', number | undefined> & Record<'from' | 'to', string | undefined>>

function checkOptions({ base = 10, upper, from, to }: Typed): void {
  if (upper !== undefined && upper < base)
    throw new UsageError(`--upper ${upper} is below the lower threshold, ${base} °C`)
  if (from !== undefined && to !== undefined && to < from)
    throw new UsageError(`--to ${to} is before --from ${from}`)
}

function latitudeOf(call: Call): number {
  const latitude = call.number('latitude', -90, 90)
  if (latitude === undefined)
    throw new UsageError(
      'a weather file alone does not say where it was measured',
      'add --latitude, in degrees north, like --latitude 47.6',
    )
  return latitude
}
