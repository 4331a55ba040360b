import { downyIncubation } from '../../agronomy/disease/downy-incubation.ts'
import { dayOf, type IsoDate, isoDate } from '../../records/date.ts'
import type { PressureDay } from './days.ts'

/** A run of days on which downy mildew's primary infection was possible, and when its oil spots are due. */
export type Incubation = ReturnType<typeof incubations>[number]

/**
 * Incubation of each run of primary infections: fast from the end of its first day, slow from that of its last.
 * Temperatures are hourly, or daily means where `perDay` is 1.
 */
export function incubations(
  days: readonly PressureDay[],
  hours: readonly { day: number; temperature: number | null }[],
  perDay: 24 | 1 = 24,
) {
  const spells: { from: IsoDate; to: IsoDate }[] = []
  days.forEach(({ date, downy }, at) => {
    if (downy.primary !== true) return
    if (days[at - 1]?.downy.primary === true) spells.at(-1)!.to = date
    else spells.push({ from: date, to: date })
  })
  const temperatures = hours.map(({ temperature }) => temperature)
  // Counted from the day after an infection.
  const after = (date: IsoDate) => {
    const next = hours.findIndex(({ day }) => day > dayOf(date))
    const start = next < 0 ? hours.length : next
    const dateOf = (at: number | null) => (at === null ? null : isoDate(hours[start + at]!.day))
    return { ...downyIncubation(temperatures.slice(start), perDay), dateOf }
  }
  return spells.map(({ from, to }) => {
    const fast = after(from)
    const slow = after(to)
    return {
      from,
      to,
      /** Oil spots are due between these two dates; null where incubation hasn't ended by the last day with weather. */
      earliest: fast.dateOf(fast.earliest.doneAt),
      latest: slow.dateOf(slow.latest.doneAt),
      /** Share of incubation completed by the last day with weather, fast and slow, 0 to 1. */
      progress: {
        fast: Math.min(1, fast.earliest.progress.at(-1) ?? 0),
        slow: Math.min(1, slow.latest.progress.at(-1) ?? 0),
      },
      /** Hours without temperature, which add no progress: the spots may come sooner. */
      missing: slow.missing * (24 / perDay),
      /** Hours outside the 10-28 °C of the equations. */
      outside: slow.outside * (24 / perDay),
    }
  })
}
