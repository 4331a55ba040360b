import { typedIn, type Units } from '../../facts/ledger-units.ts'
import type { IsoDate } from '../../records/date.ts'
import type { CalibrateData } from './report.ts'

/** A record's other content, and its units. */
interface From {
  tank: number | null
  date: IsoDate
  pressure?: number | undefined
  units: Units
}

/** What was measured, by key of a sprayer's record. */
export function measuredValues(
  { flow, speed, nozzles, method, volumePerHa }: CalibrateData,
  from: From & { hasWater: boolean },
): Record<string, string | string[]> {
  // A rate follows from the flow and speed in the record, so it is written only to replace an older one.
  const typed = (value: number, unit: string) => typedIn({ value, unit }, from.units)
  const keepsWater = volumePerHa !== null && (method === 'area' || from.hasWater)
  const isMeasured = flow !== null || keepsWater
  return {
    ...(from.tank === null ? {} : { tank: typed(from.tank, 'L') }),
    ...(keepsWater ? { water: typed(volumePerHa.value, 'L/ha') } : {}),
    ...(flow ? { flow: typed(flow.value, 'L/min') } : {}),
    ...(isMeasured ? { calibrated: from.date } : {}),
    ...(speed ? { speed: typed(speed.value, 'km/h') } : {}),
    ...(from.pressure === undefined ? {} : { pressure: typed(from.pressure, 'bar') }),
    ...(nozzles.length > 0 ? { nozzles: nozzles.map((one) => typed(one.flow.value, 'L/min')) } : {}),
  }
}

/** The record of a sprayer as YAML, to paste or to save. What wasn't measured is left to fill in. */
export function sprayerRecord(data: CalibrateData, from: From & { id: string }): string {
  const name = from.id.charAt(0).toUpperCase() + from.id.slice(1).replaceAll('-', ' ')
  const values = Object.entries(measuredValues(data, { ...from, hasWater: false }))
  const lines = [
    `name: ${name}`,
    ...(from.tank === null
      ? [`# tank: ${typedIn({ value: 12, unit: 'L' }, from.units)}         (must be filled in)`]
      : []),
    ...values.map(([key, value]) => `${key}: ${onOneLine(value)}`),
  ]
  return `${lines.join('\n')}\n`
}

/** A value of the record as YAML. */
export const onOneLine = (value: string | readonly string[]) =>
  typeof value === 'string' ? value : `[${value.join(', ')}]`
