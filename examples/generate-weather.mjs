/**
 * Invents the hourly weather of the example ledger: a cool, damp place at 52° N that doesn't exist.
 * The same seed gives the same bytes; `node examples/generate-weather.mjs` writes the files anew.
 *
 * Nothing in it is measured. The year's curve and the spread of the days are set so that the sums come out
 * as at a cool maritime site; the spells below are the story that the ledger tells, scripted by hand.
 *
 * Times are those of the local clock (Europe/Amsterdam), as a station writes them that follows it: in March
 * the hour 02 is missing, in October it stands twice. The station's outage has no rows at all.
 */
import { writeFileSync } from 'node:fs'
import { fileURLToPath } from 'node:url'

const HEADER = [
  '# invented example: made by examples/generate-weather.mjs, local clock (02:00 missing in March, twice in October)',
  'time,temperature_c,humidity_pct,rain_mm,wetness_min,wind_ms',
]

/** `warmer` in °C; `wet` is the chance of a wet day, `rain` its mean in mm; all in place of the usual. */
export const SEASONS = [
  {
    year: 2024,
    seed: 20240,
    warmer: -0.2,
    spells: [
      { from: '2024-05-27', to: '2024-06-09', warmer: -0.8, wet: 0.6, rain: 5 },
      { from: '2024-07-05', to: '2024-07-14', warmer: 1.2, wet: 0.75, rain: 7 },
      { from: '2024-07-22', to: '2024-08-12', warmer: -0.2, wet: 0.5, rain: 4 },
    ],
  },
  {
    year: 2025,
    seed: 20250,
    warmer: 0.3,
    spells: [
      { from: '2025-04-20', to: '2025-05-18', warmer: 0.6, wet: 0.2, rain: 3 },
      { from: '2025-06-24', to: '2025-07-03', warmer: 3.2, wet: 0.15, rain: 4 },
      { from: '2025-09-05', to: '2025-09-16', warmer: 0.2, wet: 0.6, rain: 6 },
    ],
    outage: { from: '2025-07-22T14:00', to: '2025-07-22T20:00' },
  },
  {
    year: 2026,
    seed: 20260,
    warmer: 0.1,
    last: '2026-09-13T23:00',
    spells: [
      { from: '2026-05-25', to: '2026-06-13', warmer: -0.7, wet: 0.35, rain: 3 },
      { from: '2026-06-16', to: '2026-07-02', warmer: 4, wet: 0.8, rain: 6 },
      { from: '2026-07-03', to: '2026-07-20', warmer: 0, wet: 0.25, rain: 3 },
      { from: '2026-08-18', to: '2026-09-13', warmer: 1.2, wet: 0.22, rain: 3 },
    ],
  },
]

/** The small generator known as mulberry32: numbers from 0 up to 1, the same for the same seed. */
function randomNumbers(seed) {
  let state = seed >>> 0
  return () => {
    state = (state + 0x6d2b79f5) >>> 0
    let mixed = Math.imul(state ^ (state >>> 15), state | 1)
    mixed ^= mixed + Math.imul(mixed ^ (mixed >>> 7), mixed | 61)
    return ((mixed ^ (mixed >>> 14)) >>> 0) / 4294967296
  }
}

/** About normal, mean 0 and standard deviation 1: the sum of twelve even numbers less 6. */
const bell = (random) => Array.from({ length: 12 }, random).reduce((sum, one) => sum + one, -6)

const DAY_MS = 86_400_000
const HOUR_MS = 3_600_000
const TAU = 2 * Math.PI

/** The days of a season, 1 November to 31 October: mean and swing in °C, rain in mm for each of 24 hours. */
function inventDays({ year, warmer, spells }, random) {
  const days = []
  const end = Date.UTC(year, 9, 31)
  let anomaly = 0
  let wetBefore = false
  for (let time = Date.UTC(year - 1, 10, 1); time <= end; time += DAY_MS) {
    const date = new Date(time).toISOString().slice(0, 10)
    const spell = spells.find((one) => date >= one.from && date <= one.to)
    const summer = Math.cos((TAU * (time - Date.UTC(year, 6, 25))) / (365.25 * DAY_MS))
    const wet = random() < (spell?.wet ?? (wetBefore ? 0.56 : 0.3))
    anomaly = 0.72 * anomaly + 1.35 * bell(random) * (spell ? 0.6 : 1)
    const mean = 10.4 + 7.4 * summer + warmer + anomaly + (spell?.warmer ?? 0) - (wet && !spell ? 0.5 : 0)
    const swing = (3.9 + 1.1 * summer) * (wet ? 0.68 : 1) * (0.8 + 0.4 * random())
    const rain = wet ? inventShowers(-Math.log(1 - random()) * (spell?.rain ?? 4.6), random) : null
    days.push({ mean, swing, rain, dryness: 0.6 + 2.4 * random(), breeze: 1.2 + 3.2 * random() * random() })
    wetBefore = wet
  }
  return days
}

/** Shares a day's rain among one to three showers. */
function inventShowers(total, random) {
  const hours = new Array(24).fill(0)
  const showers = 1 + Math.floor(3 * random())
  for (let shower = 0; shower < showers; shower++) {
    const start = Math.floor(24 * random())
    const length = 1 + Math.floor(5 * random())
    for (let hour = 0; hour < length; hour++) hours[(start + hour) % 24] += total / showers / length
  }
  return hours
}

/** Pressure of saturated water vapour over water, hPa (Magnus, constants of WMO No. 8). */
const saturation = (celsius) => 6.112 * Math.exp((17.62 * celsius) / (243.12 + celsius))

/** The hours of a season by standard time. */
function inventHours(season, random) {
  const days = inventDays(season, random)
  const hours = []
  let drift = 0
  let water = 0
  for (let at = 0; at < days.length * 24; at++) {
    const day = days[Math.floor(at / 24)]
    const hour = at % 24
    const other = days[Math.floor(at / 24) + (hour < 12 ? -1 : 1)] ?? day
    const weight = Math.abs(hour - 12) / 24
    drift = 0.8 * drift + 0.18 * bell(random)
    const mean = day.mean * (1 - weight) + other.mean * weight
    const temperature = mean + day.swing * Math.cos((TAU * (hour - 15)) / 24) + drift
    const rain = day.rain ? Math.round(day.rain[hour] * 5) / 5 : 0
    const dewPoint = Math.min(mean - day.swing - day.dryness + 0.9, temperature) + (day.rain ? 1.6 : 0)
    const share = (100 * saturation(dewPoint)) / saturation(temperature)
    const humidity = Math.min(99, Math.max(rain > 0 ? 91 : 30, share + 3 * drift))
    const dew = humidity >= 94 && (hour < 8 || hour > 20)
    water = rain > 0 ? Math.min(240, water + 90) : Math.max(dew ? 60 : 0, water - 25 - 1.6 * (100 - humidity))
    const wind =
      day.breeze * (0.75 + 0.35 * Math.cos((TAU * (hour - 14)) / 24)) + 0.25 * Math.abs(bell(random))
    hours.push({ temperature, humidity, rain, wetness: Math.min(60, water), wind })
  }
  return hours
}

/** Midnight of the last Sunday of a month, as a time in UTC. */
function lastSunday(year, month) {
  const last = new Date(Date.UTC(year, month + 1, 0))
  return last.getTime() - last.getUTCDay() * DAY_MS
}

/** The local clock's text for an hour of standard time (UTC+1): summer time from 02:00 to 02:00, standard time. */
function localClock(standard, year) {
  const summer = standard >= lastSunday(year, 2) + 2 * HOUR_MS && standard < lastSunday(year, 9) + 2 * HOUR_MS
  return new Date(standard + (summer ? HOUR_MS : 0)).toISOString().slice(0, 16)
}

/** The whole text of a season's weather.csv. */
export function weatherFile(season) {
  const start = Date.UTC(season.year - 1, 10, 1)
  const rows = inventHours(season, randomNumbers(season.seed)).map((hour, at) => ({
    time: localClock(start + at * HOUR_MS, season.year),
    ...hour,
  }))
  const kept = rows.filter(
    ({ time }) =>
      time <= (season.last ?? '9999') &&
      !(season.outage && time >= season.outage.from && time <= season.outage.to),
  )
  const lines = kept.map(({ time, temperature, humidity, rain, wetness, wind }) =>
    [
      time,
      (Math.round(temperature * 10) / 10 + 0).toFixed(1),
      Math.round(humidity),
      rain === 0 ? '0' : rain.toFixed(1),
      Math.round(wetness / 5) * 5,
      wind.toFixed(1),
    ].join(','),
  )
  return `${[...HEADER, ...lines].join('\n')}\n`
}

/** Where a season's file stands. */
export const weatherPath = (season) =>
  fileURLToPath(new URL(`./far-quillet/seasons/${season.year}/weather.csv`, import.meta.url))

if (process.argv[1] === fileURLToPath(import.meta.url)) {
  for (const season of SEASONS) writeFileSync(weatherPath(season), weatherFile(season))
}
