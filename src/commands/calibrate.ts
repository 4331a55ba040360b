import type { Style } from '../render/style.ts'
import { display } from '../render/units.ts'
import { type Measured, calibrate as report } from '../reports/calibrate/report.ts'
import { measuredValues, sprayerRecord } from '../reports/calibrate/sprayer-record.ts'
import { renderCalibrate } from '../reports/calibrate/terminal.ts'
import type { Call } from './plumbing/call.ts'
import { type CommandBody, optionsOf } from './plumbing/command.ts'
import { UsageError } from './plumbing/errors.ts'

export const calibrate: CommandBody = {
  options: optionsOf([
    ['--flow QUANTITY', 'flow of all open nozzles together: 5.5 L/min'],
    ['--nozzle QUANTITY...', 'flow of one nozzle, once for each'],
    ['--speed QUANTITY', 'speed while spraying: 5 km/h'],
    ['--distance QUANTITY', 'length of a timed run: 100 m'],
    ['--seconds NUMBER', 'seconds that the run, the plot or the catching took'],
    ['--width QUANTITY', 'width treated in one pass: row spacing times rows, or the boom'],
    ['--caught QUANTITY', 'what was caught, or refilled: over --plot, or in --seconds'],
    ['--plot QUANTITY', 'the area sprayed: 72 m2, or 1/128 acre'],
    ['--wanted QUANTITY', 'wanted water: 300 L/ha'],
    ['--pressure QUANTITY', 'pressure at which the flow was measured'],
    ['--nozzle-tolerance PERCENT', 'most that a nozzle may be off the mean, else 10'],
    ['--rate-tolerance PERCENT', 'most that the water may be off the wanted, else 5'],
    ['--tank QUANTITY', 'volume of the tank, for the record'],
    [
      '--save [ID]',
      'keep it in the record of this sprayer, or of the only one, or as a new record; shows what changes',
      { ids: 'sprayers' },
    ],
  ]),
  examples: [
    [
      'rowbook calibrate --flow "5.5 L/min" --speed "5 km/h" --width "2.2 m" --wanted "300 L/ha"',
      'air-assisted',
    ],
    ['rowbook calibrate --caught 3L --plot 72m2 --tank 12L --save', 'a knapsack on a plot, kept'],
    ['rowbook calibrate --caught 0.9L --seconds 60 --save', 'what comes out in a minute, kept'],
    [
      'rowbook calibrate --caught "25 US fl oz" --plot "1/128 acre" --width 2m',
      'by 1/128 acre: ounces caught are US gal/acre',
    ],
    [
      'rowbook calibrate --nozzle "0.92 L/min" --nozzle "0.78 L/min" --distance 100m --seconds 72 --width 2m',
      'nozzles one by one',
    ],
  ],
  async run(call) {
    const measured = measuredOf(call)
    const asOf = call.date('as-of') ?? call.env.today()
    const result = orUsage(() => report(measured, asOf))
    const style = call.style()
    const tank = measured.tank ?? null
    const from = { tank, date: asOf, pressure: measured.pressure, units: style.units }
    const textOf = (id: string) => sprayerRecord(result.data, { ...from, id })
    if (!call.flag('save') && call.text('save') === undefined) {
      const useful = result.data.flow !== null || result.data.volumePerHa !== null
      const said = 'To keep it, add --save; or write this into sprayers/ID.yaml:'
      const record = useful ? { text: textOf('sprayer'), said } : null
      return call.print(result, () => renderCalibrate(result, style, record))
    }
    const { saveCalibration } = await import('./plumbing/save-calibration.ts')
    const { file, isNew, changes, stale } = saveCalibration(call, {
      values: (hasWater) => measuredValues(result.data, { ...from, hasWater }),
      tank,
      newText: textOf,
    })
    const kept = { ...result, data: { ...result.data, saved: file, changes } }
    const record = isNew ? { text: textOf(idOf(file)), said: `Saved as ${file}:` } : null
    const status = await call.print(kept, () => renderCalibrate(kept, style, record))
    if (stale !== null)
      call.env.err(
        `${file} still has water of ${shown(stale, style.units)}, measured with another flow. Spray a plot again: rowbook calibrate --caught 3L --plot 72m2 --save\n`,
      )
    return status
  },
}

function shown(perHa: number, units: Style['units']): string {
  return display({ value: perHa, unit: 'L/ha' }, units)
}

const idOf = (file: string) => file.replace(/^.*\/|\.yaml$/g, '')

function measuredOf(call: Call): Measured {
  const nozzles: number[] = []
  for (const text of call.texts('nozzle')) nozzles.push(call.read('nozzle', text, ['L/min']).low)
  const distance = call.value('distance', 'm')
  const seconds = call.number('seconds', 0.001, 1e6)
  const caught = call.value('caught', 'L')
  if (distance !== undefined && seconds === undefined)
    throw new UsageError('--distance needs the seconds that it took', 'write --seconds 60, or give --speed')
  if (seconds !== undefined && distance === undefined && caught === undefined)
    throw new UsageError(
      '--seconds of what?',
      'give --distance with it for the speed, or --caught for what came out in that time',
    )
  const flow = call.value('flow', 'L/min')
  const speed = call.value('speed', 'km/h')
  if (speed !== undefined && distance !== undefined)
    throw new UsageError('the speed is given twice', 'give --speed, or --distance with --seconds')
  if (flow !== undefined && nozzles.length > 0)
    throw new UsageError(
      'the flow is given twice',
      'give --flow, or --nozzle for each; their sum is the flow',
    )
  if (caught !== undefined && seconds !== undefined && (flow !== undefined || nozzles.length > 0))
    throw new UsageError('the flow is given twice', 'give --flow or --nozzle, or --caught with --seconds')
  const plotText = call.text('plot')?.trim()
  const plot128 = plotText !== undefined && /^1\/128(\s*acre)?$/.test(plotText)
  return {
    flow,
    nozzles,
    speed,
    run: distance !== undefined && seconds !== undefined ? { distance, seconds } : undefined,
    width: call.value('width', 'm'),
    caught,
    seconds,
    tank: call.value('tank', 'L'),
    plot: plotText === undefined || plot128 ? undefined : call.read('plot', plotText, ['m2']).low,
    plot128,
    wanted: call.value('wanted', 'L/ha'),
    pressure: call.value('pressure', 'bar'),
    nozzleTolerance: (call.number('nozzle-tolerance', 0, 100) ?? 10) / 100,
    rateTolerance: (call.number('rate-tolerance', 0, 100) ?? 5) / 100,
  }
}

function orUsage<T>(work: () => T): T {
  try {
    return work()
  } catch (error) {
    if (error instanceof RangeError)
      throw new UsageError(`these figures make no calibration: ${error.message}`, 'check each')
    throw error
  }
}
