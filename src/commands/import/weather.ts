import { makeReport } from '../../facts/report.ts'
import type { Recognised } from '../../ledger/import/recognise.ts'
import type { Said } from '../../ledger/import/recognised.ts'
import { planWeatherImport, writeWeatherImport } from '../../ledger/import/weather.ts'
import type { Finding } from '../../ledger/read/finding.ts'
import { rememberImport } from '../../ledger/write/kept.ts'
import { renderWeatherImport } from '../../reports/import/terminal-weather.ts'
import { weatherRead } from '../../reports/import/weather-read.ts'
import type { Call } from '../plumbing/call.ts'
import { UsageError } from '../plumbing/errors.ts'
import { uninterrupted } from '../plumbing/uninterrupted.ts'
import { askWeather } from '../prompts/ask-weather.ts'
import { askOnce, screenOf } from '../prompts/question.ts'
import { mappingOf } from '../weather/file.ts'

/** Imports a station's export into the season folders. Shows it first; writes what is new with `--yes` or after asking. */
export async function importWeather(call: Call, file: string): Promise<number> {
  const input = call.open({ kinds: [] })
  const typed: Said = { how: mappingOf(call), rain: call.text('rain') as Said['rain'] }
  const planOf = (said: Said) => planWeatherImport(input.ledger, file, { cwd: call.env.cwd, said })
  const said = call.mayAsk ? await askedOn(call, typed, (so) => planOf(so).source?.recognised) : typed
  if (!said) return nothingWritten(call)
  const plan = planOf(said)
  refuse(plan.findings.filter(({ level }) => level === 'error'))
  const read = weatherRead(plan.source!)
  const seasons = plan.seasons.map(({ lines, stood, text, ...one }) => ({
    ...one,
    preview: lines.slice(0, 3),
  }))
  const reportOf = (written: boolean) =>
    makeReport('import', input, {
      data: { kind: 'weather', written, read, seasons },
      findings: plan.findings,
    })
  let written = call.flag('yes')
  if (call.mayAsk && seasons.some(({ added, filled }) => added > 0 || filled > 0)) {
    call.env.err(renderWeatherImport(reportOf(false), call.style(), { asked: true }))
    written = await askOnce(call, 'Write it?')
    if (!written) return nothingWritten(call)
  }
  if (written) {
    rememberImport(input.ledger.root, plan.seasons)
    uninterrupted(() => writeWeatherImport(input.ledger, plan))
  }
  return call.print(reportOf(written), (result, style) => renderWeatherImport(result, style))
}

function nothingWritten(call: Call): number {
  call.env.err('Nothing written.\n')
  return 1
}

/** The options for an export, with the answers given on the terminal; null where the grower left. */
async function askedOn(
  call: Call,
  typed: Said,
  read: (said: Said) => Recognised | null | undefined,
): Promise<Said | null> {
  const screen = screenOf(call)
  try {
    return await askWeather(typed, read, screen)
  } finally {
    screen.input.close()
  }
}

/** Most faults of an export that are reported at once. */
const MOST_REPORTED = 5

/** @throws UsageError with the faults that stop the import, where there are any */
function refuse(faults: readonly Finding[]): void {
  const first = [...new Map(faults.map((one) => [one.message, one])).values()].slice(0, MOST_REPORTED)
  if (first.length === 0) return
  const lines = first.map(({ file, line, column, message }) => `${file}:${line}:${column}: ${message}`)
  throw new UsageError(lines.join('\n'), [...new Set(first.map(({ help }) => help))].join('\n  '))
}
