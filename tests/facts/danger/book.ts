import { dangerJudge } from '../../../src/facts/danger/danger.ts'
import type { ReportInput } from '../../../src/facts/report.ts'
import { addDays, type IsoDate } from '../../../src/records/date.ts'
import { ledgerOf } from '../../ledger/in-memory.ts'

export type Files = Readonly<Record<string, string | null>>

/** The weather of a day by hour; hours left out are mild and dry. */
type Hour = { warm?: number; humid?: number; rain?: number; wet?: number }

export const LAST = '2026-07-20'

/** Hourly weather from 1 April on; `hourOf` gives what differs from mild and dry, null for a missing hour. */
export function weather(
  hourOf: (date: IsoDate, hour: number) => Hour | null = () => ({}),
  to = LAST,
): string {
  const rows = ['time,temperature_c,humidity_pct,rain_mm,wetness_min']
  for (let date = '2026-04-01'; date <= to; date = addDays(date, 1))
    for (let hour = 0; hour < 24; hour++) {
      const one = hourOf(date, hour)
      if (one === null) continue
      const { warm = hour >= 9 && hour < 20 ? 19 : 12, humid = 62, rain = 0, wet = 0 } = one
      rows.push(`${date}T${String(hour).padStart(2, '0')}:00,${warm},${humid},${rain},${wet}`)
    }
  return `${rows.join('\n')}\n`
}

/** Input of a report on the small vineyard, with these files added. */
export function inputOf(files: Files, asOf: IsoDate = LAST): ReportInput {
  const ledger = ledgerOf(files)
  if (ledger.findings.length > 0)
    throw new Error(JSON.stringify(ledger.findings.map(({ message }) => message)))
  return { ledger, season: 2026, asOf, blocks: [...ledger.blocks.values()] }
}

/** The judgement of the block Upper on each of some days. */
export function judged(files: Files, dates: readonly IsoDate[], asOf: IsoDate = LAST) {
  const judge = dangerJudge(inputOf(files, asOf))
  return dates.map((date) => ({
    date,
    powdery: judge.on('upper', 'powdery', date),
    downy: judge.on('upper', 'downy', date),
    botrytis: judge.on('upper', 'botrytis', date),
  }))
}

export const WEATHER = 'seasons/2026/weather.csv'
export const STAGES = 'seasons/2026/stages.yaml'
export const WALKS = 'seasons/2026/scouting.yaml'

export const stage = (date: IsoDate, code: number) => `- { date: ${date}, block: upper, stage: ${code} }\n`

export const walk = (date: IsoDate, found: string, looked = 'bunches: 100, leaves: 100') =>
  `- { date: ${date}, block: upper, looked_at: { ${looked} }, found: { ${found} } }\n`
