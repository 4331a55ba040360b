import type { Report } from '../../facts/report.ts'
import { upperFirst } from '../../facts/sentences.ts'
import type { SeasonImport } from '../../ledger/import/weather.ts'
import { addAll } from '../../records/add-all.ts'
import { daysInWords } from '../../render/days-in-words.ts'
import { safeLine } from '../../render/safe.ts'
import type { Style } from '../../render/style.ts'
import { counted, sentences, wrap } from '../../render/text.ts'
import { renderWeatherRead, shownReading } from './terminal-weather-read.ts'
import type { WeatherRead } from './weather-read.ts'

interface WeatherImportData {
  kind: string
  written: boolean
  read: WeatherRead
  seasons: (Omit<SeasonImport, 'lines' | 'stood' | 'text'> & { preview: string[] })[]
}

/** Most readings that differ which are reported one by one. */
const MOST_DIFFERING = 5

/** What an import of weather adds or would add, season by season, after what was read. */
export function renderWeatherImport(
  { data, findings, asOf }: Report<WeatherImportData>,
  style: Style,
  { asked = false } = {},
): string {
  const { written, seasons } = data
  const year = asOf.slice(0, 4)
  const added = seasons.reduce((sum, one) => sum + one.added, 0)
  const filled = seasons.reduce((sum, one) => sum + one.filled, 0)
  const parts = sentences(
    added > 0 && `${counted(added, 'row')} ${written ? 'added' : 'to add'}`,
    filled > 0 && `${counted(filled, 'row')} ${written ? 'filled' : 'to fill'} where a reading was empty`,
  )
  const lines = [
    parts.length === 0
      ? 'Nothing is new: every row is in the ledger already.'
      : `${upperFirst(parts.join(', '))}.`,
  ]
  if (!written) lines.push('', renderWeatherRead(data.read, style, year).trimEnd())
  for (const one of seasons) addAll(lines, ['', ...seasonLines(one, written, { style, year })])
  for (const { line, level, message, help } of findings.slice(0, 5))
    lines.push(
      '',
      wrap(`Line ${line}, ${level}: ${safeLine(message)}. ${upperFirst(safeLine(help))}.`, style.columns),
    )
  if (findings.length > 5) lines.push(`and ${findings.length - 5} more; --json lists them`)
  if (!written && parts.length > 0 && !asked) lines.push('', 'Run it again with --yes to write.')
  return `${lines.join('\n')}\n`
}

function seasonLines(
  one: WeatherImportData['seasons'][number],
  written: boolean,
  { style, year }: { style: Style; year: string },
): string[] {
  const parts = sentences(
    one.added > 0
      ? `${counted(one.added, 'new row')}, ${daysInWords(`${one.first} to ${one.last}`, year)}`
      : 'no new row',
    one.known > 0 && `${one.known} already there`,
    one.filled > 0 && `${one.filled} of them filled`,
    one.columns.length > 0 && `new: column ${one.columns.map(safeLine).join(', ')}`,
    one.different > 0 && `${one.different} of them with other readings, kept as they are`,
  )
  const lines = [wrap(`${one.file}${one.isNew ? ' (a new file)' : ''}: ${parts.join('; ')}.`, style.columns)]
  for (const { time, what, stands, read, unit } of one.differing.slice(0, MOST_DIFFERING))
    lines.push(
      `  ${daysInWords(time, year)}  ${what}: ${[stands, read].map((value) => shownReading(value, unit, style)).join(' recorded, the file has ')}`,
    )
  const rest = one.differing.length - MOST_DIFFERING
  if (rest > 0) lines.push(`  and ${counted(rest, 'more', 'more')}; --json lists them`)
  if (!written)
    for (const line of one.preview)
      lines.push(style.paint.faint(`  ${safeLine(line).slice(0, style.columns - 2)}`))
  return lines
}
