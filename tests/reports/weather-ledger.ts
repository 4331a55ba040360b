import { mkdtempSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { Weather } from '../../src/facts/weather/hours.ts'
import { openLedger } from '../../src/ledger/read/open.ts'
import { readWeatherFile } from '../../src/ledger/weather/weather.ts'
import { addDays } from '../../src/records/date.ts'
import { pressureOfFile } from '../../src/reports/pressure/report.ts'
import { makeLedger } from '../ledger/make.ts'

export const folder = mkdtempSync(join(tmpdir(), 'rowbook-pressure-'))
export const HEADER = 'time,temperature_c,humidity_pct,rain_mm,wetness_min'
export const two = (value: number) => String(value).padStart(2, '0')

export interface DayOf {
  /** Hours at 25 °C from six o'clock; the others have 15 °C. */
  warm?: number
  rain?: number
  hot?: boolean
  drop?: number[]
}

export function weatherText(from: string, days: readonly DayOf[]): string {
  const lines = days.flatMap(({ warm = 0, rain = 0, hot = false, drop = [] }, at) =>
    Array.from({ length: 24 }, (_, hour) => {
      if (drop.includes(hour)) return []
      const temperature = hot && hour === 20 ? 36 : hour >= 6 && hour < 6 + warm ? 25 : 15
      return [`${addDays(from, at)}T${two(hour)}:00,${temperature},70,${hour === 12 ? rain : 0},0`]
    }).flat(),
  )
  return `${[HEADER, ...lines].join('\n')}\n`
}

let files = 0

/** The path of a file that isn't there yet. */
export const freshFile = () => join(folder, `${files++}.csv`)

export function pressureOf(days: readonly DayOf[]) {
  const path = freshFile()
  writeFileSync(path, weatherText('2026-06-01', days))
  return pressureOfFile(new Weather(readWeatherFile(path)), { asOf: '2026-12-31' }).data
}

export function inputOf(files: Record<string, string>, asOf: string) {
  const ledger = openLedger(makeLedger(files), { seasons: 'all' })
  return { ledger, season: 2026, asOf, blocks: [...ledger.blocks.values()] }
}
