import { DOWNY_PRIMARY_RULES } from '../../agronomy/disease/downy-primary-rules.ts'
import { dayOf, type IsoDate, isoDate } from '../../records/date.ts'
import type { ReportInput } from '../report.ts'
import { weatherOf } from '../weather/hours.ts'

/** Daily means, °C, and rain, mm, of a forecast, by day number. */
interface DaysAhead {
  means: ReadonlyMap<number, number>
  rain: ReadonlyMap<number, number>
}

/**
 * Whether downy mildew may infect on each day from today on, by the rain and the mean of that day and the one before: the
 * three tens (Baldacci 1947 as cited, paper not read), or the vineyard's own limits. What the forecast doesn't say of
 * days up to today is taken from the station. Days on which either isn't known are left out.
 */
export function downyAhead(
  { ledger, season, asOf }: Omit<ReportInput, 'blocks'>,
  { means, rain }: DaysAhead,
  days: number,
): { date: IsoDate; primary: boolean; rain: number; mean: number }[] {
  const rule = DOWNY_PRIMARY_RULES['three-tens']
  const { rain: leastRain = rule.rain, temperature: leastWarmth = rule.temperature } =
    ledger.vineyard.downy ?? {}
  const today = dayOf(asOf)
  const known = new Map(weatherOf(ledger, season).days.map((day) => [day.day, day]))
  const both = (of: ReadonlyMap<number, number>, key: 'rain' | 'mean', day: number) => {
    const values = [day - 1, day].map(
      (one) => of.get(one) ?? (one <= today ? known.get(one)?.[key] : null) ?? null,
    )
    return values.includes(null) ? null : values.reduce<number>((sum, value) => sum + value!, 0)
  }
  return Array.from({ length: days }, (_, at) => today + at).flatMap((day) => {
    const [fallen, warmth] = [both(rain, 'rain', day), both(means, 'mean', day)]
    if (fallen === null || warmth === null) return []
    const mean = warmth / 2
    const primary = fallen >= leastRain && mean >= leastWarmth
    return [{ date: isoDate(day), primary, rain: fallen, mean }]
  })
}
