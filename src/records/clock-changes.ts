import { offsetAt } from './zone.ts'

const HOUR = 3_600_000

/** The hours that a zone's clock leaves out and has twice, as hour numbers: day number times 24 plus hour. */
export interface ClockChanges {
  skipped: Set<number>
  repeated: Set<number>
}

/** The clock changes of a zone from one day number to another. Looks once a week, then halves to the hour. */
export function clockChanges(zone: string, firstDay: number, lastDay: number): ClockChanges {
  const changes: ClockChanges = { skipped: new Set(), repeated: new Set() }
  const offset = (hour: number) => offsetAt(hour * HOUR, zone)
  const end = (lastDay + 2) * 24
  for (let from = (firstDay - 1) * 24; from < end; from += 168) {
    const before = offset(from)
    const after = offset(from + 168)
    if (before === after) continue
    let low = from
    let high = from + 168
    while (high - low > 1) {
      const middle = Math.floor((low + high) / 2)
      if (offset(middle) === before) low = middle
      else high = middle
    }
    const wall = high + Math.floor(before / 60)
    const hours = Math.round((after - before) / 60)
    for (let hour = 0; hour < hours; hour++) changes.skipped.add(wall + hour)
    for (let hour = 0; hour < -hours; hour++) changes.repeated.add(wall + hours + hour)
  }
  return changes
}
