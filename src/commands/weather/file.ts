import { asSentences } from '../../facts/sentences.ts'
import { Weather } from '../../facts/weather/hours.ts'
import {
  isEmpty,
  isUnreadable,
  readWeatherFile,
  type WeatherFile,
  type WeatherMapping,
} from '../../ledger/weather/weather.ts'
import { safe } from '../../render/safe.ts'
import type { Call } from '../plumbing/call.ts'
import { optionsOf } from '../plumbing/command.ts'
import { UsageError } from '../plumbing/errors.ts'

/** Options for a weather file in an unusual form; `where` says when they apply. */
export const weatherFormOptions = (where: string) =>
  optionsOf([
    [
      '--columns LIST',
      `how its columns are named, like "time=Zeit, temperature=Temp", or "humidity=none" to leave one out; ${where}`,
    ],
    ['--column-units LIST', `units of its columns, like "temperature=F, rain=in"; ${where}`],
    ['--decimal MARK', `its decimal mark, else point; ${where}`, { choices: ['point', 'comma'] }],
    [
      '--dates ORDER',
      `how it writes dates, else iso; ${where}`,
      { choices: ['iso', 'day-first', 'month-first'] },
    ],
    ['--separator TEXT', `the sign between its columns, like ";" or tab; ${where}`],
  ])

/** Options of the reports that also work on a weather file alone. */
export const WEATHER_FILE_OPTIONS = [
  ...optionsOf([['--weather FILE', 'a weather file instead of a ledger']]),
  ...weatherFormOptions('with --weather'),
]

/**
 * The weather file named by `--weather`, or undefined. The first few of its findings go to stderr.
 * @throws UsageError where nothing can be read from it
 */
export function weatherFileOf(call: Call): Weather | undefined {
  const path = call.text('weather')
  if (path === undefined) {
    if (mappingOf(call) === undefined) return undefined
    throw new UsageError(
      'how a weather file is written was said, and no file was named',
      'add --weather FILE; how that of a ledger is written stands in vineyard.yaml, under `weather:`',
    )
  }
  const weather = readWeatherFile(path, { cwd: call.env.cwd, mapping: mappingOf(call) })
  const worst = weather.findings.find(({ level }) => level === 'error') ?? weather.findings[0]
  if (isUnreadable(weather) && worst) throw new UsageError(`${path}: ${worst.message}`, worst.help)
  if (isEmpty(weather)) throw new UsageError(`${path} holds no rows`, 'a row begins with its time or date')
  if (!call.json) tellFindings(call, weather)
  return new Weather(weather)
}

/** The form of a weather file, from the options typed; undefined where none were. */
export function mappingOf(call: Call): WeatherMapping | undefined {
  const said: WeatherMapping = {
    columns: pairsOf(call, 'columns', 'names no column: write it like temperature=Temp'),
    units: pairsOf(call, 'column-units', 'names no unit: write it like temperature=F'),
    decimal: call.text('decimal') as WeatherMapping['decimal'],
    dates: call.text('dates') as WeatherMapping['dates'],
    separator: call.text('separator'),
  }
  const typed = Object.entries(said).filter(([, value]) => value !== undefined)
  return typed.length === 0 ? undefined : Object.fromEntries(typed)
}

function pairsOf(call: Call, option: string, fault: string): Record<string, string> | undefined {
  const list = call.text(option)
  if (list === undefined) return undefined
  // A heading may hold a comma: only a comma before another KEY= separates.
  const pairs = list.split(/,(?=[^,=]*=)/).map((pair) => {
    const at = pair.indexOf('=')
    const [key, name] = [pair.slice(0, at).trim(), pair.slice(at + 1).trim()]
    const [what, help] = fault.split(': ')
    if (at < 0 || key === '' || name === '')
      throw new UsageError(`--${option}: \`${pair.trim()}\` ${what}`, help)
    return [key, name] as const
  })
  return Object.fromEntries(pairs)
}

/** Most findings of a weather file that are shown beside a report. */
const MOST_SHOWN = 5

function tellFindings(call: Call, { findings }: WeatherFile): void {
  const serious = findings.filter(({ level }) => level !== 'hint')
  for (const { file, line, column, level, message, help } of serious.slice(0, MOST_SHOWN))
    call.env.err(safe(`${file}:${line}:${column} ${level}: ${asSentences([message, help])}\n`))
  if (serious.length > MOST_SHOWN)
    call.env.err(`and ${serious.length - MOST_SHOWN} more; --json lists them\n`)
}
