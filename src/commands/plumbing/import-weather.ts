import type { Call } from './call.ts'
import { UsageError } from './errors.ts'
import { mappingOf } from './weather-file.ts'

/** Brings a station's export into the season folders: a look first, then, with `--yes` or when asked, only the new rows. */
export async function importWeather(call: Call, file: string): Promise<number> {
  const input = await call.open({ kinds: [] })
  const { planWeatherImport, writeWeatherImport } = await import('../../ledger/import/weather.ts')
  const plan = planWeatherImport(input.ledger, file, { cwd: call.env.cwd, how: mappingOf(call) })
  const fault = plan.findings.find(({ level }) => level === 'error')
  if (fault) throw new UsageError(`${fault.file}:${fault.line}:${fault.column}: ${fault.message}`, fault.help)
  const { makeReport } = await import('../../facts/report.ts')
  const { renderWeatherImport } = await import('../../reports/import/terminal-weather.ts')
  const reportOf = (written: boolean) =>
    makeReport('import', input, {
      data: {
        kind: 'weather',
        written,
        seasons: plan.seasons.map(({ lines, stood, ...one }) => ({ ...one, preview: lines.slice(0, 3) })),
      },
      findings: plan.findings,
    })
  const isNew = plan.seasons.some(({ added }) => added > 0)
  const { env } = call
  const mayAsk = isNew && !call.json && env.inIsTerminal && env.outIsTerminal
  let written = call.flag('yes')
  if (!written && mayAsk) {
    const look = renderWeatherImport(reportOf(false), await call.style(), { asked: true })
    const { safe } = await import('../../render/safe.ts')
    env.err(safe(look))
    const { askToWrite } = await import('../prompts/ask-entry.ts')
    if (!(await askToWrite(false))) return 0
    written = true
  }
  if (written) {
    const { uninterrupted } = await import('./uninterrupted.ts')
    uninterrupted(() => writeWeatherImport(input.ledger, plan))
  }
  return call.print(reportOf(written), (result, style) => renderWeatherImport(result, style))
}
