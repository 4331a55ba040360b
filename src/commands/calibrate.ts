import type { Measured } from '../reports/calibrate/report.ts'
import type { Call } from './plumbing/call.ts'
import type { Command } from './plumbing/command.ts'
import { UsageError } from './plumbing/errors.ts'
import { readOption } from './plumbing/options.ts'

export const calibrate: Command = {
  name: 'calibrate',
  summary: 'what a sprayer puts out on a hectare, and whether its nozzles agree',
  options: [
    { flags: '--flow QUANTITY', what: 'flow of all open nozzles together: 5.5 L/min' },
    { flags: '--nozzle QUANTITY...', what: 'flow of one nozzle, once for each', repeats: true },
    { flags: '--speed QUANTITY', what: 'speed while spraying: 5 km/h' },
    { flags: '--distance QUANTITY', what: 'length of a timed run: 100 m' },
    { flags: '--seconds NUMBER', what: 'seconds that the run took' },
    { flags: '--width QUANTITY', what: 'width treated in one pass: row spacing times rows, or the boom' },
    { flags: '--caught QUANTITY', what: 'area method: what was caught or refilled' },
    { flags: '--plot QUANTITY', what: 'area method: the area sprayed: 30 m2, or 1/128 acre' },
    { flags: '--wanted QUANTITY', what: 'wanted water: 300 L/ha' },
    { flags: '--pressure QUANTITY', what: 'pressure at which the flow was measured' },
    { flags: '--nozzle-tolerance PERCENT', what: 'most that a nozzle may be off the mean, else 10' },
    { flags: '--rate-tolerance PERCENT', what: 'most that the water may be off the wanted, else 5' },
    { flags: '--tank QUANTITY', what: 'volume of the tank, for the record' },
    {
      flags: '--save ID',
      what: 'keep it as a new sprayer record; nothing that stands is changed',
      ids: 'sprayers',
    },
  ],
  examples: [
    [
      'rowbook calibrate --flow "5.5 L/min" --speed "5 km/h" --width "2.2 m" --wanted "300 L/ha"',
      'air-assisted',
    ],
    ['rowbook calibrate --caught "1.2 L" --plot "30 m2"', 'a knapsack on a plot'],
    [
      'rowbook calibrate --nozzle "0.92 L/min" --nozzle "0.78 L/min" --distance 100m --seconds 72 --width 2m',
      'nozzles one by one',
    ],
  ],
  async run(call) {
    const measured = await measuredOf(call)
    const asOf = call.date('as-of') ?? call.env.today()
    const { calibrate: report } = await import('../reports/calibrate/report.ts')
    const result = orUsage(() => report(measured, asOf))
    const tank = (await call.quantity('tank', ['L']))?.value ?? null
    const { renderCalibrate } = await import('../reports/calibrate/terminal.ts')
    const style = await call.style()
    const id = call.text('save')
    const { sprayerRecord } = await import('../reports/calibrate/sprayer-record.ts')
    const text = sprayerRecord(result.data, {
      id: id ?? 'sprayer',
      tank,
      date: asOf,
      pressure: measured.pressure,
    })
    const useful = result.data.flow !== null
    const file = id === undefined ? null : await save(call, id, text, tank)
    const said =
      id === undefined
        ? 'To keep it, paste this as sprayers/ID.yaml, or say --save ID:'
        : file !== null
          ? `Saved as ${file}:`
          : `sprayers/${id}.yaml is there already and was left as it is; paste into it what has changed:`
    const kept = { ...result, data: { ...result.data, saved: file } }
    return call.print(
      kept,
      () => renderCalibrate(kept, style, useful || id !== undefined ? { text, said } : null),
      { status: id !== undefined && file === null ? 1 : 0 },
    )
  },
}

async function measuredOf(call: Call): Promise<Measured> {
  const nozzles: number[] = []
  for (const text of call.texts('nozzle')) nozzles.push((await readOption('nozzle', text, ['L/min'])).low)
  const distance = (await call.quantity('distance', ['m']))?.value
  const seconds = call.number('seconds', 0.001, 1e6)
  if ((distance === undefined) !== (seconds === undefined))
    throw new UsageError('--distance and --seconds go together', 'give both, or --speed')
  const flow = (await call.quantity('flow', ['L/min']))?.value
  const speed = (await call.quantity('speed', ['km/h']))?.value
  if (speed !== undefined && distance !== undefined)
    throw new UsageError('the speed is given twice', 'give --speed, or --distance with --seconds')
  if (flow !== undefined && nozzles.length > 0)
    throw new UsageError(
      'the flow is given twice',
      'give --flow, or --nozzle for each; their sum is the flow',
    )
  const plotText = call.text('plot')?.trim()
  const plot128 = plotText !== undefined && /^1\/128(\s*acre)?$/.test(plotText)
  return {
    flow,
    nozzles,
    speed,
    run: distance !== undefined && seconds !== undefined ? { distance, seconds } : undefined,
    width: (await call.quantity('width', ['m']))?.value,
    caught: (await call.quantity('caught', ['L']))?.value,
    plot: plotText === undefined || plot128 ? undefined : (await readOption('plot', plotText, ['m2'])).low,
    plot128,
    wanted: (await call.quantity('wanted', ['L/ha']))?.value,
    pressure: (await call.quantity('pressure', ['bar']))?.value,
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

/** Writes a new record by exclusive create. @returns its file; null where one of that id stands already. */
async function save(call: Call, id: string, text: string, tank: number | null): Promise<string | null> {
  const { ID_SHAPE } = await import('../records/fields.ts')
  if (!ID_SHAPE.test(id))
    throw new UsageError(`\`${id}\` is not an id`, 'an id is lower-case words joined by hyphens')
  if (tank === null) throw new UsageError('a sprayer record needs the tank', 'name it: --tank 200L')
  const { findLedger } = await import('../ledger/read/find.ts')
  const { createFile } = await import('../ledger/write/write.ts')
  const { NameTaken } = await import('../ledger/write/write-failed.ts')
  const { uninterrupted } = await import('./plumbing/uninterrupted.ts')
  const root = findLedger(call.env.cwd, call.text('ledger'))
  try {
    return uninterrupted(() => createFile({ root, folder: 'sprayers', stem: id, text, only: true }))
  } catch (error) {
    if (error instanceof NameTaken) return null
    throw error
  }
}
