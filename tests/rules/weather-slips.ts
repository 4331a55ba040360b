import type { Level } from '../../src/ledger/read/finding.ts'

// Slips in a station's file, each in an invented spring of hours: a daily wave of warmth, and rain every third day.

interface Row {
  /** Hours since 2026-03-20 00:00 of a clock that follows summer time. */
  time: string
  temperature: string
  rain: string
}

const DAYS = 60
const HEADER = 'time,temperature_c,humidity_pct,rain_mm'

/** The rows; a station whose clock follows summer time has no 02:00 on 29 March. */
const rows: Row[] = Array.from({ length: DAYS * 24 }, (_, at) => {
  const hour = at % 24
  const time = new Date(Date.UTC(2026, 2, 20) + at * 3_600_000).toISOString().slice(0, 16)
  const temperature = (12 + 6 * Math.sin(((hour - 9) / 24) * 2 * Math.PI) + (at % 7) * 0.1).toFixed(1)
  const isWet = Math.floor(at / 24) % 3 === 0 && hour < 6
  return { time, temperature, rain: isWet ? (0.4 + (at % 5) * 0.6).toFixed(1) : '0' }
})
const MISSING = '2026-03-29T02:00'

function file(change: (row: Row) => Row = (row) => row, { summerTime = true } = {}): string {
  const kept = rows.filter(({ time }) => !(summerTime && time === MISSING)).map(change)
  return `${HEADER}\n${kept.map(({ time, temperature, rain }) => `${time},${temperature},70,${rain}`).join('\n')}\n`
}

export const SOUND_WEATHER = file()

export const WEATHER_SLIPS: readonly {
  what: string
  text: string
  name: string
  level: Level
  line: number
}[] = [
  {
    what: 'the file of last year',
    text: file((row) => ({ ...row, time: row.time.replace('2026', '2025') })),
    name: 'wrong-season',
    level: 'warning',
    line: 2,
  },
  {
    what: 'a clock that stays on winter time',
    text: file(undefined, { summerTime: false }),
    name: 'clock-off',
    level: 'warning',
    line: 9 * 24 + 2 + 2,
  },
  {
    what: '°F under a heading of °C',
    text: file((row) => ({ ...row, temperature: (Number(row.temperature) * 1.8 + 32).toFixed(1) })),
    name: 'unlikely-weather',
    level: 'warning',
    line: 2,
  },
  {
    what: 'inches under a heading of mm',
    text: file((row) => ({ ...row, rain: (Number(row.rain) / 25.4).toFixed(2) })),
    name: 'unlikely-weather',
    level: 'warning',
    line: 2,
  },
  {
    what: 'humidity as a share under a heading of %',
    text: SOUND_WEATHER.replaceAll(',70,', ',0.7,'),
    name: 'unlikely-weather',
    level: 'warning',
    line: 2,
  },
  {
    what: 'temperature and humidity swapped',
    text: SOUND_WEATHER.replace(/^(2026[^,]*),([\d.-]+),([\d.-]+)/gm, '$1,50,$2'),
    name: 'unlikely-weather',
    level: 'warning',
    line: 2,
  },
  {
    what: 'wind in km/h under a heading of m/s',
    text: SOUND_WEATHER.replace('rain_mm', 'rain_mm,wind_ms').replace(/^(2026.*)$/gm, '$1,7.9'),
    name: 'unlikely-weather',
    level: 'warning',
    line: 2,
  },
  {
    what: 'wetness in hours under a heading of minutes',
    text: SOUND_WEATHER.replace('rain_mm', 'rain_mm,wetness_min').replace(
      /^(2026.*),([\d.]+)$/gm,
      (_, row, rain) => `${row},${rain},${Number(rain) > 0 ? 0.5 : 0}`,
    ),
    name: 'unlikely-weather',
    level: 'warning',
    line: 2,
  },
  {
    what: 'one reading without its point',
    text: SOUND_WEATHER.replace(/(2026-04-10T12:00),(\d+)\.(\d)/, '$1,$2$3'),
    name: 'impossible-reading',
    level: 'warning',
    line: 21 * 24 + 12 + 1,
  },
  {
    what: 'a day of rows lost',
    text: SOUND_WEATHER.replace(/2026-04-12T.*\n/g, ''),
    name: 'weather-gap',
    level: 'hint',
    line: 23 * 24 + 1,
  },
  {
    what: 'a day of rows pasted twice',
    text: SOUND_WEATHER.replace(/(?:2026-04-12T.*\n)+/, (day) => day + day),
    name: 'hour-twice',
    level: 'warning',
    line: 24 * 24 + 1,
  },
]
