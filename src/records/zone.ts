import type { Zone } from 'luxon'
import { isOwnZone } from './clock.ts'
import { addDays, type IsoDate } from './date.ts'

/**
 * Clock time at a place as an instant and back, by luxon and the time zone data that comes with Node. It is loaded
 * when it is first needed: setting it up takes a sixth of Node's own start where nothing is cached.
 */
const luxon = (): typeof import('luxon') => require('luxon')

/** English by name: else luxon asks Intl for the machine's language, which takes as long as all the rest. */
const locale = 'en-US'

/** @throws RangeError where this machine knows no such zone. */
function zoneOf(name: string): Zone {
  const { IANAZone, SystemZone } = luxon()
  if (isOwnZone(name)) return SystemZone.instance
  const zone = IANAZone.create(name)
  if (!zone.isValid) throw new RangeError(`there is no time zone ${name}`)
  return zone
}

/** Minutes by which the clocks of a zone are ahead of UTC at an instant (ms since 1970). */
export function offsetAt(instant: number, zone: string): number {
  const ahead = isOwnZone(zone) ? -new Date(instant).getTimezoneOffset() : zoneOf(zone).offset(instant)
  return 0 + Math.round(ahead)
}

/**
 * The instant (ms since 1970) at which the clocks of a zone show a time. Where they show it twice, the later
 * one, so that a waiting time is never cut short; where they skip it, the instant just after the gap.
 * @param minutes after midnight of the date; beyond 1440 the days after.
 */
export function instantOf(date: IsoDate, minutes: number, zone: string): number {
  const [year, month, day] = addDays(date, Math.floor(minutes / 1440))
    .split('-')
    .map(Number)
  const [hour, minute] = [Math.floor((minutes % 1440) / 60), minutes % 60]
  const shown = luxon().DateTime.fromObject(
    { year, month, day, hour, minute },
    { zone: zoneOf(zone), locale },
  )
  return shown.getPossibleOffsets().reduce((last, time) => Math.max(last, time.toMillis()), -Infinity)
}

/** What the clocks and calendar of a zone show at an instant. `iso` carries the offset: `2026-06-15T20:05+02:00`. */
export function wallClock(instant: number, zone: string): { date: IsoDate; minutes: number; iso: string } {
  const time = luxon().DateTime.fromMillis(instant, { zone: zoneOf(zone), locale })
  if (!time.isValid) throw new RangeError(`wallClock requires an instant, got ${instant}`)
  return {
    date: time.toISODate(),
    minutes: time.hour * 60 + time.minute,
    iso: time.toISO({ precision: 'minute' }),
  }
}

const HOUR = 3_600_000

/** The hours that a zone's clock skips and repeats, as hour numbers: day number times 24 plus hour. */
export interface ClockChanges {
  skipped: Set<number>
  repeated: Set<number>
}

/** The clock changes of a zone from one day number to another, at most one a day. */
export function clockChanges(zone: string, firstDay: number, lastDay: number): ClockChanges {
  const skipped = new Set<number>()
  const repeated = new Set<number>()
  const offset = (hour: number) => offsetAt(hour * HOUR, zone)
  const end = (lastDay + 2) * 24
  for (let from = (firstDay - 1) * 24, before = offset(from); from < end; from += 24) {
    const after = offset(from + 24)
    if (before === after) continue
    let changed = from + 1
    while (offset(changed) === before) changed++
    const wall = changed + Math.floor(before / 60)
    const hours = Math.round((after - before) / 60)
    for (let hour = 0; hour < hours; hour++) skipped.add(wall + hour)
    for (let hour = hours; hour < 0; hour++) repeated.add(wall + hour)
    before = after
  }
  return { skipped, repeated }
}
