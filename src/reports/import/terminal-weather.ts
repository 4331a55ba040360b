import type { Report } from '../../facts/report.ts'
import type { SeasonImport } from '../../ledger/import/weather.ts'
import { safeLine } from '../../render/safe.ts'
import type { Style } from '../../render/style.ts'
import { counted, wrap } from '../../render/text.ts'

interface WeatherImportData {
  kind: string
  written: boolean
  seasons: (Omit<SeasonImport, 'lines' | 'stood'> & { preview: string[] })[]
}

/** What an import of weather adds or would add, season by season. */
export function renderWeatherImport(
  { data, findings }: Report<WeatherImportData>,
  style: Style,
  { asked = false } = {},
): string {
  const { written, seasons } = data
  const added = seasons.reduce((sum, one) => sum + one.added, 0)
  const verb = written ? 'were added' : 'would be added'
  const lines = [
    added === 0
      ? 'Nothing is new: every row stands in the ledger already.'
      : `${counted(added, 'row')} ${verb}.`,
  ]
  for (const one of seasons) {
    const parts = [
      one.added > 0 ? `${counted(one.added, 'new row')}, ${one.first} to ${one.last}` : 'nothing new',
      `${one.known} there already`,
      ...(one.different > 0 ? [`${one.different} of them with other readings, left as they stand`] : []),
    ]
    lines.push(
      '',
      wrap(`${one.file}${one.isNew ? ' (a new file)' : ''}: ${parts.join('; ')}.`, style.columns),
    )
    if (!written)
      for (const line of one.preview)
        lines.push(style.paint.faint(`  ${safeLine(line).slice(0, style.columns - 2)}`))
  }
  for (const { line, level, message } of findings.slice(0, 5))
    lines.push('', wrap(`Line ${line}, ${level}: ${safeLine(message)}.`, style.columns))
  if (findings.length > 5) lines.push(`and ${findings.length - 5} more; --json lists them`)
  if (!written && added > 0 && !asked) lines.push('', 'Say it again with --yes to write.')
  return `${lines.join('\n')}\n`
}
