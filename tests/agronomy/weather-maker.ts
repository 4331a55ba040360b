import fc from 'fast-check'
import { type EveryHour, everyHour, type HourlyWeather } from '../../src/agronomy/weather/weather-hours.ts'

export type HourParts = Partial<Omit<HourlyWeather, 'day' | 'hour'>>

/** Hours from hour 0 of day 0 on; what a part leaves out is unknown. */
export const rowsOf = (parts: HourParts[]): HourlyWeather[] =>
  parts.map((part, at) => ({
    day: Math.floor(at / 24),
    hour: at % 24,
    temperature: null,
    humidity: null,
    rain: null,
    wetness: null,
    ...part,
  }))

export const hoursOf = (parts: HourParts[]): EveryHour => everyHour(rowsOf(parts))

/** The same hour `count` times. */
export const times = (count: number, part: HourParts): HourParts[] =>
  Array.from({ length: count }, () => part)

/** Hours of wetness (60 minutes) at a temperature, and dry hours. */
export const wet = (count: number, temperature: number) => times(count, { wetness: 60, temperature, rain: 1 })
export const dry = (count: number, temperature = 15) => times(count, { wetness: 0, temperature, rain: 0 })

/** A day with one run of `run` hours at 25 °C, else 10 °C, and one hour at 36 °C where it is hot. */
export const powderyDay = (run: number, hot = false): HourParts[] => {
  const day = times(24, { temperature: 10 })
  for (let at = 0; at < run; at++) day[6 + at] = { temperature: 25 }
  if (hot) day[20] = { temperature: 36 }
  return day
}

/** Whole days of plausible hours, known throughout. */
export const knownDays = (days: number) =>
  fc.array(
    fc.record({
      temperature: fc.constantFrom(8, 9.9, 10, 12, 13, 18, 22, 25, 29, 31, 36),
      humidity: fc.constantFrom(60, 89, 90, 98, 99),
      rain: fc.constantFrom(0, 0, 0, 0.5, 3),
      wetness: fc.constantFrom(0, 0, 60, 60),
    }),
    { minLength: days * 24, maxLength: days * 24 },
  )

/** The known hours, and the same with some dropped; `before` are hours ahead of them that all are known. */
export const withAndWithoutGaps = (days: number, before: fc.Arbitrary<HourParts[]> = fc.constant([])) =>
  fc
    .tuple(
      before,
      knownDays(days),
      fc.uniqueArray(fc.integer({ min: 1, max: days * 24 - 2 }), { maxLength: 8 }),
    )
    .map(([lead, parts, dropped]) => ({
      known: hoursOf([...lead, ...parts]),
      gappy: everyHour(rowsOf([...lead, ...parts]).filter((_, at) => !dropped.includes(at - lead.length))),
    }))
