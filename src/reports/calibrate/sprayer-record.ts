import type { IsoDate } from '../../records/date.ts'
import type { CalibrateData } from './report.ts'

/** What was measured, by key of a sprayer's record. */
export function measuredValues(
  { flow, speed, nozzles, method, volumePerHa }: CalibrateData,
  from: { tank: number | null; date: IsoDate; pressure?: number | undefined; hasWater: boolean },
): Record<string, string | string[]> {
  // Of a rate by flow and speed the record holds both; it is only kept where an older one would contradict it.
  const keepsWater = volumePerHa !== null && (method === 'area' || from.hasWater)
  const isMeasured = flow !== null || keepsWater
  return {
    ...(from.tank === null ? {} : { tank: `${from.tank} L` }),
    ...(keepsWater ? { water: `${figure(volumePerHa.value)} L/ha` } : {}),
    ...(flow ? { flow: `${figure(flow.value)} L/min` } : {}),
    ...(isMeasured ? { calibrated: from.date } : {}),
    ...(speed ? { speed: `${figure(speed.value)} km/h` } : {}),
    ...(from.pressure === undefined ? {} : { pressure: `${figure(from.pressure)} bar` }),
    ...(nozzles.length > 0 ? { nozzles: nozzles.map((one) => `${figure(one.flow.value)} L/min`) } : {}),
  }
}

/** The record of a sprayer as YAML, to paste or to save. What wasn't measured is left to fill in. */
export function sprayerRecord(
  data: CalibrateData,
  from: { id: string; tank: number | null; date: IsoDate; pressure?: number | undefined },
): string {
  const name = from.id.charAt(0).toUpperCase() + from.id.slice(1).replaceAll('-', ' ')
  const values = Object.entries(measuredValues(data, { ...from, hasWater: false }))
  const lines = [
    `name: ${name}`,
    ...(from.tank === null ? ['# tank: 12 L         (must be filled in)'] : []),
    ...values.map(([key, value]) => `${key}: ${onOneLine(value)}`),
  ]
  return `${lines.join('\n')}\n`
}

/** A value of the record as YAML. */
export const onOneLine = (value: string | readonly string[]) =>
  typeof value === 'string' ? value : `[${value.join(', ')}]`

/** Four digits that count, never in powers of ten. */
const figure = (value: number) => String(Number(value.toPrecision(4)))
