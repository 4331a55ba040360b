import { stationDayOf } from '../../facts/weather/in-short.ts'
import type { Ledger } from '../../ledger/read/ledger.ts'
import { dayOf } from '../../records/date.ts'
import type { RecordOf } from '../../records/kinds.ts'
import { spokenDate } from '../../records/spoken-date.ts'

const READ = [
  { key: 'low', of: 'min', name: 'the lowest', unit: '°C' },
  { key: 'high', of: 'max', name: 'the highest', unit: '°C' },
  { key: 'rain', of: 'rain', name: 'the rain', unit: 'mm' },
] as const

/** Of a day read by hand: what the station has read too, and whose figures are used. Null where it has none of them. */
export function besideStation(
  { date, ...read }: RecordOf<'weather'>,
  { ledger, season }: { ledger: Ledger; season: number },
): string | null {
  const station = stationDayOf(ledger, season, dayOf(date))
  if (!station) return null
  const has = READ.filter(({ key, of }) => read[key] !== undefined && station[of] !== null).map(
    ({ of, name, unit }) => `${name}, ${Number(station[of]!.toFixed(1))} ${unit}`,
  )
  if (has.length === 0) return null
  return `the station has read ${has.join('; ')} on ${spokenDate(date)}; its readings are used, and yours where it has none`
}
