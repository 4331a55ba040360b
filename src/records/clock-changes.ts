import { offsetAt } from './zone.ts'

const HOUR = 3_600_000

/** The hours that a zone's clock skips and repeats, as hour numbers: day number times 24 plus hour. */
export interface ClockChanges {
  skipped: Set<number>
  repeated: Set<number>
}

/** The clock changes of a zone from one day number to another, at most one a day. */
export function clockChanges(zone: string, firstDay: number, lastDay: number): ClockChanges {
  const changes: ClockChanges = { skipped: new Set(), repeated: new Set() }
  const offset = (hour: number) => offsetAt(hour * HOUR, zone)
  const end = (lastDay + 2) * 24
  for (let from = (firstDay - 1) * 24, before = offset(from); from < end; from += 24) {
    const after = offset(from + 24)
    if (before !== after) addChange(changes, { from, before, after, offset })
    before = after
  }
  return changes
}

/** Records a change of the UTC offset (minutes) within 24 hours from an hour number in UTC. */
function addChange(
  { skipped, repeated }: ClockChanges,
  {
    from,
    before,
    after,
    offset,
  }: { from: number; before: number; after: number; offset: (hour: number) => number },
): void {
  let changed = from + 1
  while (offset(changed) === before) changed++
  const wall = changed + Math.floor(before / 60)
  const hours = Math.round((after - before) / 60)
  for (let hour = 0; hour < hours; hour++) skipped.add(wall + hour)
  for (let hour = 0; hour < -hours; hour++) repeated.add(wall + hours + hour)
}
