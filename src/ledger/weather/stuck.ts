import { isoDate } from '../../records/date.ts'
import type { Complain } from './rows.ts'
import { hourOfRow, timeSpan, type WeatherTable } from './table.ts'

/**
 * Hours for which no air temperature stays exactly the same. Our own choice; a persistence check is common practice.
 */
const STUCK_HOURS = 48

/** Reports a temperature that doesn't change for two days: a stuck sensor, or rows that were filled in. */
export function reportStuckSensor(rows: WeatherTable, order: readonly number[], complain: Complain): void {
  const values = rows.readings.temperature
  if (!values) return
  let first = 0
  const close = (end: number) => {
    const [from, to] = [order[first], order[end - 1]]
    if (from === undefined || to === undefined) return
    const hours = hourOfRow(rows, to) - hourOfRow(rows, from)
    if (hours < STUCK_HOURS) return
    complain(timeSpan(rows, from), {
      name: 'stuck-sensor',
      level: 'hint',
      message: `the temperature stays ${values[from]} C from here for ${hours} hours, up to ${isoDate(rows.day[to]!)}`,
      help: 'look after the sensor; empty the cells that it did not measure, so that they count as unknown',
    })
  }
  for (let at = 1; at < order.length; at++) {
    const [row, before] = [order[at]!, order[at - 1]!]
    if (values[row] === values[before] && hourOfRow(rows, row) - hourOfRow(rows, before) <= 1) continue
    close(at)
    first = at
  }
  close(order.length)
}
