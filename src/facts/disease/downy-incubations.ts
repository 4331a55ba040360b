import { downyIncubation } from '../../agronomy/disease/downy-incubation.ts'
import { dayOf, type IsoDate, isoDate } from '../../records/date.ts'
import type { PressureDay } from './days.ts'

/** A run of days on which downy mildew's primary infection was possible, and when its oil spots are due. */
export interface Incubation {
  from: IsoDate
  to: IsoDate
  /** Oil spots are due between these two dates; null where incubation hasn't ended by the last day with weather. */
  earliest: IsoDate | null
  latest: IsoDate | null
  /** Share of incubation completed by the last day with weather, fast and slow, 0 to 1. */
  progress: { fast: number; slow: number }
  /** Hours without temperature, which add no progress: the spots may come sooner. */
  missing: number
  /** Hours outside the 10-28 °C of the equations. */
  outside: number
}

/**
 * Incubation of each run of primary infections: fast from the end of its first day, slow from that of its last.
 * Temperatures are hourly, or daily means where `perDay` is 1.
 */
export function incubations(
  days: readonly PressureDay[],
  hours: readonly { day: number; temperature: number | null }[],
  perDay: 24 | 1 = 24,
): Incubation[] {
  const spells: { from: IsoDate; to: IsoDate }[] = []
  days.forEach(({ date, downy }, at) => {
    if (downy.primary !== true) return
    if (days[at - 1]?.downy.primary === true) spells.at(-1)!.to = date
    else spells.push({ from: date, to: date })
  })
  const temperatures = hours.map(({ temperature }) => temperature)
  const firstHour = new Map<number, number>()
  hours.forEach(({ day }, at) => {
    if (day !== hours[at - 1]?.day) firstHour.set(day, at)
  })
  const after = (date: IsoDate) => {
    const start = firstHour.get(dayOf(date) + 1) ?? hours.length
    return { start, temperatures: temperatures.slice(start) }
  }
  return spells.map(({ from, to }) => {
    const first = after(from)
    const last = after(to)
    const fast = downyIncubation(first.temperatures, perDay)
    const slow = downyIncubation(last.temperatures, perDay)
    const dateAt = ({ start }: { start: number }, at: number | null) =>
      at === null ? null : isoDate(hours[start + at]!.day)
    return {
      from,
      to,
      earliest: dateAt(first, fast.earliest.doneAt),
      latest: dateAt(last, slow.latest.doneAt),
      progress: {
        fast: Math.min(1, fast.earliest.progress.at(-1) ?? 0),
        slow: Math.min(1, slow.latest.progress.at(-1) ?? 0),
      },
      missing: slow.missing * (24 / perDay),
      outside: slow.outside * (24 / perDay),
    }
  })
}
