import { mkdtempSync, readFileSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { parse } from 'csv-parse/sync'
import type { DegreeDayMethod } from '../../src/agronomy/heat/degree-days.ts'
import { Weather } from '../../src/facts/weather/hours.ts'
import { readWeatherFile } from '../../src/ledger/weather/weather.ts'
import { heatOfFile } from '../../src/reports/heat/report.ts'
import { pressureOfFile } from '../../src/reports/pressure/report.ts'
import { type PublishedRow, published } from './rows.ts'

/**
 * The `heat` and `pressure` reports on the open weather of the npm package vega-datasets 3.2.1 (NOAA, U.S.
 * Government data). Wanted values: worked out once from the formulas of the reports, or the independent path below,
 * which reads the file with csv-parse and integrates the day's curve numerically.
 */
const SOURCE = 'NOAA daily weather of Seattle in vega-datasets 3.2.1'
const folder = mkdtempSync(join(tmpdir(), 'rowbook-open-data-'))
const records = (file: string): Record<string, string>[] =>
  parse(readFileSync(new URL(`../../node_modules/vega-datasets/data/${file}`, import.meta.url)), {
    columns: true,
  })

const seattle = records('seattle-weather.csv')
const dailyFile = join(folder, 'seattle.csv')
writeFileSync(
  dailyFile,
  [
    'date,min_c,max_c,rain_mm',
    ...seattle.map((row) => [row.date, row.temp_min, row.temp_max, row.precipitation].join(',')),
  ].join('\n'),
)
const hourlyFile = join(folder, 'normals.csv')
const normals = records('seattle-weather-hourly-normals.csv')
writeFileSync(
  hourlyFile,
  ['time,temperature_c', ...normals.map((row) => `${row.date!.slice(0, 16)},${row.temperature}`)].join('\n'),
)
/** The same days, mapped instead of converted. */
const mapped = new URL('../../node_modules/vega-datasets/data/seattle-weather.csv', import.meta.url).pathname
const columns = { date: 'date', min: 'temp_min', max: 'temp_max', rain: 'precipitation' }

function heat(year: number, options: { method?: DegreeDayMethod; upper?: number } = {}) {
  const span = { from: `${year}-04-01`, to: `${year}-10-31` }
  return heatOfFile(new Weather(readWeatherFile(dailyFile)), {
    latitude: 47.6,
    asOf: span.to,
    ...span,
    ...options,
  }).data
}

/** Sum over a sine wave through both ends of each day, by 20,000 steps a day. */
function integrated(year: number, base: number): number {
  const steps = 20_000
  const days = seattle.filter(({ date }) => date! >= `${year}-04-01` && date! <= `${year}-10-31`)
  return days.reduce((sum, row) => {
    const middle = (Number(row.temp_max) + Number(row.temp_min)) / 2
    const amplitude = (Number(row.temp_max) - Number(row.temp_min)) / 2
    let area = 0
    for (let step = 0; step < steps; step++)
      area += Math.max(0, middle + amplitude * Math.sin(((step + 0.5) / steps) * 2 * Math.PI) - base)
    return sum + area / steps
  }, 0)
}

const three = 5.1e-4
const row = (
  id: string,
  got: PublishedRow['got'],
  want: PublishedRow['want'],
  within = three,
): PublishedRow => ({
  id,
  source: SOURCE,
  basis: 'derived',
  got,
  want,
  within,
})

published([
  row('2012 average', () => heat(2012).sum, 1111.9),
  row('2012 sine', () => heat(2012, { method: 'single-sine' }).sum, 1157.771),
  row('2012 sine, upper 30', () => heat(2012, { method: 'single-sine', upper: 30 }).sum, 1154.074),
  row('2012 triangle', () => heat(2012, { method: 'single-triangle' }).sum, 1142.029),
  row('2012 Winkler', () => heat(2012).winkler.value, 1111.9),
  row('2012 Winkler region', () => heat(2012).winkler.region, 'Ib'),
  row('2012 Huglin', () => heat(2012).huglin.value, 1546.729),
  row('2012 Huglin class', () => heat(2012).huglin.class, 'cool'),
  row('2012 season mean', () => heat(2012).seasonMean.value, 15.009),
  row('2012 September minima', () => heat(2012).coolNights.value, 11.243),
  row('2014 average', () => heat(2014).sum, 1439.7),
  row('2014 sine', () => heat(2014, { method: 'single-sine' }).sum, 1469.951),
  row('2014 sine, upper 30', () => heat(2014, { method: 'single-sine', upper: 30 }).sum, 1465.538),
  row('2014 triangle', () => heat(2014, { method: 'single-triangle' }).sum, 1460.588),
  row('2014 Huglin', () => heat(2014).huglin.value, 1858.605),
  row('2014 Huglin class', () => heat(2014).huglin.class, 'temperate'),
  row('2014 season mean', () => heat(2014).seasonMean.value, 16.695),
  row('2014 September minima', () => heat(2014).coolNights.value, 13.233),
  row('2013 sine, integrated', () => heat(2013, { method: 'single-sine' }).sum, integrated(2013, 10), 0.01),
  row(
    '2012 average, columns mapped',
    () =>
      heatOfFile(new Weather(readWeatherFile(mapped, { mapping: { columns } })), {
        latitude: 47.6,
        asOf: '2012-10-31',
        from: '2012-04-01',
        to: '2012-10-31',
      }).data.sum,
    1111.9,
  ),
  ...(['dailyMeans', 'hours'] as const).map((key) => ({
    ...row(`${key}`, () => hourlyHeat()?.[key] ?? null, key === 'hours' ? 1027.68 : 993.56, 0.0051),
    source: 'NOAA hourly normals 1981-2010 of Seattle in vega-datasets 3.2.1',
  })),
  {
    ...row('hourly normals: the powdery index never starts', () => greatestIndex(), greatestIndexByHand(), 0),
    source: 'NOAA hourly normals 1981-2010 of Seattle in vega-datasets 3.2.1, by the UC rules',
  },
])

function hourlyHeat() {
  const span = { from: '2010-04-01', to: '2010-10-31' }
  return heatOfFile(new Weather(readWeatherFile(hourlyFile)), { latitude: 47.6, asOf: span.to, ...span }).data
    .fromHours
}

function greatestIndex(): number {
  const { days } = pressureOfFile(new Weather(readWeatherFile(hourlyFile)), { asOf: '2010-12-31' }).data
  return Math.max(...days.map(({ powdery }) => powdery.index ?? -1))
}

/** The same from the file's text: runs of hours in 70-85 °F within a day, then the rules of the index. */
function greatestIndexByHand(): number {
  const runs = new Map<string, { run: number; longest: number }>()
  for (const { date, temperature } of normals) {
    const day = date!.slice(0, 10)
    const fahrenheit = (Number(temperature) * 9) / 5 + 32
    const before = runs.get(day) ?? { run: 0, longest: 0 }
    const run = fahrenheit >= 70 && fahrenheit <= 85 ? before.run + 1 : 0
    runs.set(day, { run, longest: Math.max(before.longest, run) })
  }
  let index = 0
  let greatest = 0
  let started = false
  for (const { longest } of runs.values()) {
    if (longest >= 6) index = Math.min(100, index + 20)
    else index = started ? Math.max(0, index - 10) : 0
    if (index >= 60) started = true
    greatest = Math.max(greatest, index)
  }
  return greatest
}
