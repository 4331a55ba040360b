import type { Call } from './call.ts'
import { UsageError } from './call.ts'

/** Brings a station's export into the season folders: a look first, then, with `--yes`, only the new rows. */
export async function importWeather(call: Call, file: string): Promise<number> {
  const input = await call.open({ kinds: [] })
  const { planWeatherImport, writeWeatherImport } = await import('../ledger/import-weather.ts')
  const plan = planWeatherImport(input.ledger, file, call.env.cwd)
  const fault = plan.findings.find(({ level }) => level === 'error')
  if (fault) throw new UsageError(`${fault.file}:${fault.line}:${fault.column}: ${fault.message}`, fault.help)
  const written = call.flag('yes')
  if (written) writeWeatherImport(input.ledger, plan)
  const { makeReport } = await import('../reports/report.ts')
  const { renderWeatherImport } = await import('../render/import-weather.ts')
  const report = makeReport('import', input, {
    data: {
      kind: 'weather',
      written,
      seasons: plan.seasons.map(({ lines, ...one }) => ({ ...one, preview: lines.slice(0, 3) })),
    },
    findings: plan.findings,
  })
  return call.print(report, (result, style) => renderWeatherImport(result, style))
}
