import { sugar as report } from '../reports/sugar/report.ts'
import { renderSugar } from '../reports/sugar/terminal.ts'
import type { Call } from './plumbing/call.ts'
import { type CommandBody, optionsOf } from './plumbing/command.ts'
import { UsageError } from './plumbing/errors.ts'

const SCALES = [
  ['brix', 0, 40],
  ['oechsle', 0, 179],
  ['baume', 0, 22],
  ['density', 1, 1.179],
] as const

export const sugar: CommandBody = {
  options: optionsOf([
    ['--brix NUMBER', 'the reading in degrees Brix'],
    ['--oechsle NUMBER', 'or in degrees Oechsle'],
    ['--baume NUMBER', 'or in degrees Baumé'],
    ['--density NUMBER', 'or as specific gravity 20/20, like 1.085'],
    ['--temperature QUANTITY', 'of the juice, only where the refractometer does not compensate, like 26C'],
    ['--ph NUMBER', 'pH of the juice'],
    ['--ta QUANTITY', 'titratable acidity as tartaric acid, like "8.5 g/L"'],
  ]),
  examples: [
    ['rowbook sugar --brix 21.5', 'sugar and the alcohol that it may give'],
    ['rowbook sugar --brix 21.5 --temperature 26C --ph 3.2 --ta "8.5 g/L"', 'corrected, with the acid'],
  ],
  async run(call) {
    const reading = readingOf(call)
    const temperature = call.value('temperature', 'C')
    if (temperature !== undefined && reading.scale !== 'brix')
      throw new UsageError(
        '--temperature corrects a refractometer, which reads Brix',
        'give --brix, or leave it out',
      )
    const ph = call.number('ph', 2, 5)
    const ta = call.above('ta', 'g/L')
    const result = report({ reading, temperature, ph, ta }, call.reportDay())
    return call.print(result, renderSugar, { status: result.data.brix === null ? 1 : 0 })
  },
}

function readingOf(call: Call) {
  const given = SCALES.flatMap(([scale, low, high]) => {
    const value = call.number(scale, low, high)
    return value === undefined ? [] : [{ scale, value }]
  })
  if (given.length === 1) return given[0]!
  const help = 'give one of --brix, --oechsle, --baume, --density'
  throw new UsageError(given.length === 0 ? 'no reading is given' : 'more than one reading is given', help)
}
