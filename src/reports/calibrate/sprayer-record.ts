import type { IsoDate } from '../../records/date.ts'
import type { CalibrateData } from './report.ts'

/** The record of a sprayer as YAML, to paste or to save. What wasn't measured is left to fill in. */
export function sprayerRecord(
  { flow, speed, nozzles }: CalibrateData,
  from: { id: string; tank: number | null; date: IsoDate; pressure?: number | undefined },
): string {
  const name = from.id.charAt(0).toUpperCase() + from.id.slice(1).replaceAll('-', ' ')
  const lines = [
    `name: ${name}`,
    from.tank === null ? '# tank: 200 L        (must be filled in)' : `tank: ${from.tank} L`,
    ...(flow ? [`flow: ${figure(flow.value)} L/min`, `calibrated: ${from.date}`] : []),
    ...(speed ? [`speed: ${figure(speed.value)} km/h`] : []),
    ...(from.pressure === undefined ? [] : [`pressure: ${figure(from.pressure)} bar`]),
    ...(nozzles.length > 0
      ? [`nozzles: [ ${nozzles.map((one) => `${figure(one.flow.value)} L/min`).join(', ')} ]`]
      : []),
  ]
  return `${lines.join('\n')}\n`
}

/** Four digits that count, never in powers of ten. */
const figure = (value: number) => String(Number(value.toPrecision(4)))
