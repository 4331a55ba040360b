import { readFileSync } from 'node:fs'
import stdlibQuantile from '@stdlib/stats-base-dists-t-quantile'
import { describe, expect, test } from 'vitest'
import { sugarTrend } from '../../src/agronomy/ripening/sugar-trend.ts'
import { inversePrediction, inverseStandardError } from '../../src/agronomy/statistics/inverse-prediction.ts'
import { meanInterval } from '../../src/agronomy/statistics/mean.ts'
import {
  fitLine,
  fitQuantile,
  meanResponse,
  type Point,
  predictReading,
} from '../../src/agronomy/statistics/regression.ts'
import { readingsNeeded, readingsNeededAtQuantile } from '../../src/agronomy/statistics/sample-size.ts'
import { studentCdf, studentQuantile } from '../../src/agronomy/statistics/student.ts'
import { type PublishedRow, published } from './rows.ts'

type Basis = PublishedRow['basis']
type Short = [id: string, got: () => number | string | null, want: number | string, within?: number]

function rows(source: string, basis: Basis, list: Short[]): PublishedRow[] {
  return list.map(([id, got, want, within]) => ({ id, source, basis, got, want, within }))
}

function zip(x: readonly number[], y: readonly number[]): Point[] {
  return x.map((value, i) => ({ x: value, y: y[i]! }))
}

describe('Student t', () => {
  published([
    ...rows('sugar.md t(0.975), three places', 'derived', [
      ...(
        [
          [2, 4.303],
          [3, 3.182],
          [4, 2.776],
          [5, 2.571],
          [9, 2.262],
          [19, 2.093],
          [24, 2.064],
        ] as const
      ).map(([df, want]): Short => [`df ${df}`, () => studentQuantile(0.975, df), want, 5e-4]),
    ]),
    ...rows('two-sided 95 % / 80 %, four places', 'derived', [
      ...(
        [
          [1, 12.7062, 3.0777],
          [2, 4.3027, 1.8856],
          [3, 3.1824, 1.6377],
          [4, 2.7764, 1.5332],
          [5, 2.5706, 1.4759],
        ] as const
      ).flatMap(([df, wide, narrow]): Short[] => [
        [`df ${df}, 95 %`, () => studentQuantile(0.975, df), wide, 5.1e-5],
        [`df ${df}, 80 %`, () => studentQuantile(0.9, df), narrow, 5.1e-5],
      ]),
    ]),
    ...[0.6, 0.75, 0.9, 0.95, 0.975, 0.995, 0.9995, 0.025, 1e-6].flatMap((p) =>
      [1, 1.5, 2, 3, 4.7, 7, 12, 30, 99.5, 250, 1000].map(
        (df): PublishedRow => ({
          id: `t(${p}) with ${df} df`,
          source: '@stdlib/stats-base-dists-t-quantile 0.2.3',
          basis: 'derived',
          got: () => studentQuantile(p, df),
          want: stdlibQuantile(p, df),
          within: 1e-9 * Math.max(1, Math.abs(stdlibQuantile(p, df))),
        }),
      ),
    ),
  ])

  test('one and two degrees of freedom have closed forms', () => {
    for (const t of [-40, -3, -0.2, 0, 0.7, 2, 9, 1e5]) {
      expect(studentCdf(t, 1)).toBeCloseTo(0.5 + Math.atan(t) / Math.PI, 12)
      expect(studentCdf(t, 2)).toBeCloseTo(0.5 + t / (2 * Math.sqrt(2 + t * t)), 12)
    }
  })
})

describe('means and sample sizes', () => {
  const lots = meanInterval([19.2, 20.1, 19.6, 20.4, 19.7])
  published([
    ...rows('five lots, Student 1908', 'derived', [
      ['mean', () => lots.mean, 19.8, 1e-9],
      ['sd', () => lots.sd, 0.464, 5e-4],
      ['low', () => lots.low, 19.22, 0.005],
      ['high', () => lots.high, 20.38, 0.005],
      ['half-width', () => (lots.high! - lots.low!) / 2, 0.58, 0.005],
      ['Rankine et al. 1962: SE 0.25 from 25 vines', () => studentQuantile(0.975, 24) * 0.25, 0.52, 0.005],
    ]),
    ...rows('n by fixed z', 'read', [
      ['z 2, s 0.16, E 0.01', () => readingsNeededAtQuantile({ sd: 0.16, margin: 0.01, quantile: 2 }), 1024],
      ['z 1.96, s 2.5, E 0.3', () => readingsNeededAtQuantile({ sd: 2.5, margin: 0.3, quantile: 1.96 }), 267],
    ]),
    ...rows('n by iterated t; s from Rankine et al. 1962 and Fiola (Maryland)', 'derived', [
      ...(
        [
          [1.25, 1.0, 9, 7],
          [1.25, 0.25, 99, 97],
          [2.0, 0.5, 64, 62],
          [0.72, 1.0, 5, 2],
        ] as const
      ).flatMap(([sd, margin, byT, byZ]): Short[] => [
        [`s ${sd}, E ${margin}`, () => readingsNeeded({ sd, margin }), byT],
        // The raw z figures 6.0, 96.0, 61.5 and 2.0, the first two a hair above the whole number.
        [
          `s ${sd}, E ${margin} by z`,
          () => readingsNeededAtQuantile({ sd, margin, quantile: 1.959964 }),
          byZ,
        ],
      ]),
    ]),
  ])
})

const THERMOMETER = fitLine(
  zip([96, 98, 100, 102, 104, 106, 108, 110], [95.71, 98.16, 99.52, 102.09, 103.79, 106.18, 108.14, 110.21]),
)
const CRYSTAL = fitLine(
  zip(
    [2, 4, 6, 8, 10, 12, 14, 16, 18, 20, 22, 24, 26, 28],
    [0.08, 1.12, 4.43, 4.98, 4.92, 7.18, 5.57, 8.4, 8.81, 10.81, 11.16, 10.12, 13.12, 15.04],
  ),
)
const MASSART = fitLine(zip([0, 10, 20, 30, 40, 50], [4, 21.2, 44.6, 61.8, 78, 105.2]))
const ARSENIC = fitLine(
  zip(
    [...Array(32).keys()].map((i) => Math.floor(i / 4)),
    [
      ...[0.17, 0.25, 0.01, 0.12, 1.25, 0.86, 1.25, 1.1, 2.01, 2.03, 2.14, 1.74, 3.18, 2.99, 3.23, 3.37],
      ...[3.91, 3.9, 3.61, 4.27, 4.88, 5.33, 4.96, 4.98, 6.09, 6.17, 6.07, 5.97, 6.67, 7.02, 7.14, 7.3],
    ],
  ),
)
type Fit = typeof THERMOMETER

/** Half-width of the approximate (Wald) interval. */
function waldHalf(fit: Fit, y0: number, newReadings: number | 'mean', level = 0.95): number {
  return fitQuantile(fit, level) * inverseStandardError(fit, y0, newReadings)!
}

describe('regression and inverse prediction, worked examples', () => {
  const thermometer = inversePrediction(THERMOMETER, 104, { newReadings: 1 })
  const crystal = inversePrediction(CRYSTAL, 8, { newReadings: 'mean' })
  const massart = inversePrediction(MASSART, 90, { newReadings: 1 })
  const arsenic = inversePrediction(ARSENIC, 3, { level: 0.9, newReadings: 1 })
  const next = predictReading(THERMOMETER, 104)
  published([
    ...rows('S-51 thermometer, Graybill & Iyer 1994, ch. 6 (in investr tests)', 'read', [
      ['x at 104', () => thermometer.x, 103.995, 5e-4],
      ['low', () => thermometer.low, 103.4, 0.05],
      ['high', () => thermometer.high, 104.6, 0.05],
    ]),
    ...rows('S-51 thermometer, more decimals', 'derived', [
      ['intercept', () => THERMOMETER.intercept, -3.139524, 5e-7],
      ['slope', () => THERMOMETER.slope, 1.030238, 5e-7],
      ['s', () => THERMOMETER.s, 0.234446, 5e-7],
      ['low', () => thermometer.low, 103.4041, 5e-5],
      ['high', () => thermometer.high, 104.5895, 5e-5],
      ['approximate low', () => thermometer.x! - waldHalf(THERMOMETER, 104, 1), 103.4028, 5e-5],
      ['approximate high', () => thermometer.x! + waldHalf(THERMOMETER, 104, 1), 104.5871, 5e-5],
      ['reading at 104', () => next.value, 104.0052, 5e-5],
      ['reading at 104, low', () => next.low, 103.3952, 5e-5],
      ['reading at 104, high', () => next.high, 104.6153, 5e-5],
    ]),
    ...rows('S-52 crystal growth, Graybill & Iyer 1994 (in investr tests)', 'read', [
      ['standard error at 5, one reading', () => inverseStandardError(CRYSTAL, 5, 1), 2.211698, 5e-7],
      ['standard error at 5, mean', () => inverseStandardError(CRYSTAL, 5, 'mean'), 0.6658998, 5e-8],
    ]),
    ...rows('S-52 crystal growth, more decimals', 'derived', [
      ['intercept', () => CRYSTAL.intercept, 0.001429, 5e-7],
      ['slope', () => CRYSTAL.slope, 0.503429, 5e-7],
      ['s', () => CRYSTAL.s, 1.061767, 5e-7],
      ['x at 8', () => crystal.x, 15.8882, 5e-5],
      ['low', () => crystal.low, 14.659, 5e-5],
      ['high', () => crystal.high, 17.1596, 5e-5],
    ]),
    ...rows('S-53 Massart et al. 1997, example 8.7 (in chemCal tests; y from memory)', 'read', [
      ['x at 15', () => inversePrediction(MASSART, 15, { newReadings: 1 }).x, 6.09381, 5e-6],
      ['standard error at 15', () => inverseStandardError(MASSART, 15, 1), 1.767278, 5e-7],
      ['half-width at 15', () => waldHalf(MASSART, 15, 1), 4.906751, 5e-7],
      ['x at 90', () => massart.x, 43.93983, 5e-6],
      ['half-width at 90', () => waldHalf(MASSART, 90, 1), 4.9, 0.05],
      ['half-width at 90, five readings', () => waldHalf(MASSART, 90, 5), 3.168489, 5e-7],
    ]),
    ...rows('S-53 Fieller', 'derived', [
      ['low at 90', () => massart.low, 39.1952, 5e-5],
      ['high at 90', () => massart.high, 49.0684, 5e-5],
    ]),
    ...rows('arsenic, investr vignette', 'read', [
      ['x at 3', () => arsenic.x, 2.9314, 5e-5],
      ['low, 90 %', () => arsenic.low, 2.6035, 5e-5],
      ['high, 90 %', () => arsenic.high, 3.2587, 5e-5],
      ['standard error', () => inverseStandardError(ARSENIC, 3, 1), 0.1929, 5e-5],
      ['approximate low', () => arsenic.x! - waldHalf(ARSENIC, 3, 1, 0.9), 2.604, 5e-5],
      ['approximate high', () => arsenic.x! + waldHalf(ARSENIC, 3, 1, 0.9), 3.2589, 5.1e-5],
    ]),
    ...rows('S-50 NIST/SEMATECH e-Handbook 4.5.2.1, line 7.74899 + 3.93014 x', 'derived', [
      [
        'x at 178',
        () => {
          const line = fitLine([0, 40, 80].map((x) => ({ x, y: 7.74899 + 3.93014 * x })))
          return inversePrediction(line, 178, { newReadings: 1 }).x
        },
        43.3193,
        5e-5,
      ],
    ]),
  ])
})

const SYRAH = [12.28, 16.24, 20.19, 23.33, 25.07]
const SAUVIGNON = [13.06, 15.08, 17.35, 19.15]
const XINOMAVRO = [12.14, 14.27, 16.3, 18.12, 19.33, 21.06]
const WEEKS = [0, 7, 14, 21]

describe('weekly means of the CC0 grape maturity data set (lytridic, 2019)', () => {
  const sauvignon = fitLine(zip(WEEKS, SAUVIGNON))
  const syrah = fitLine(zip(WEEKS, SYRAH))
  const limits = (fit: Fit, y0: number, level: number) =>
    inversePrediction(fit, y0, { level, newReadings: 1 })
  published([
    ...rows('S-54 Sauvignon blanc', 'derived', [
      ['intercept', () => sauvignon.intercept, 13.079, 5e-7],
      ['slope', () => sauvignon.slope, 0.293429, 5e-7],
      ['s', () => sauvignon.s, 0.137877, 5e-7],
    ]),
    ...rows('S-56 Syrah, first four', 'derived', [
      ['intercept', () => syrah.intercept, 12.445, 5e-7],
      ['slope', () => syrah.slope, 0.53, 5e-7],
      ['s', () => syrah.s, 0.316307, 5e-7],
    ]),
    ...(
      [
        ['S-54 Sauvignon blanc to 20', sauvignon, 20, 23.5867, [20.9537, 26.6637], [22.3891, 24.8684]],
        ['S-55 Sauvignon blanc to 22', sauvignon, 22, 30.4026, [27.2718, 34.2088], [28.9627, 31.9705]],
        ['S-56 Syrah to 24', syrah, 24, 21.8019, [18.6359, 25.5931], [20.3578, 23.3634]],
      ] as const
    ).flatMap(([source, fit, y0, x, wide, narrow]) =>
      rows(source, 'derived', [
        ['x', () => limits(fit, y0, 0.95).x, x, 5.1e-5],
        ['95 % low', () => limits(fit, y0, 0.95).low, wide[0], 5.1e-5],
        ['95 % high', () => limits(fit, y0, 0.95).high, wide[1], 5.1e-5],
        ['80 % low', () => limits(fit, y0, 0.8).low, narrow[0], 5.1e-5],
        ['80 % high', () => limits(fit, y0, 0.8).high, narrow[1], 5.1e-5],
      ]),
    ),
    ...rows('S-57 next reading, 7 days on', 'derived', [
      ['Sauvignon blanc', () => predictReading(sauvignon, 28).value, 21.295, 5.1e-5],
      ['95 % low', () => predictReading(sauvignon, 28).low, 20.357, 5.1e-5],
      ['95 % high', () => predictReading(sauvignon, 28).high, 22.233, 5.1e-5],
      ['80 % low', () => predictReading(sauvignon, 28, 0.8).low, 20.8839, 5.1e-5],
      ['80 % high', () => predictReading(sauvignon, 28, 0.8).high, 21.7061, 5.1e-5],
      ['Syrah', () => predictReading(syrah, 28).value, 27.285, 5.1e-5],
      ['Syrah 95 % low, above the 25.07 seen', () => predictReading(syrah, 28).low, 25.1331, 5.1e-5],
      ['Syrah 95 % high', () => predictReading(syrah, 28).high, 29.4369, 5.1e-5],
    ]),
  ])

  /** The 90 % interval in whole days, as the window rounds them, for the day that a later mean was seen. */
  function holds(series: number[], seen: number, later: number): boolean {
    const samples = series.slice(0, seen).map((brix, week) => ({ day: 7 * week, brix }))
    const trend = sugarTrend(samples)(series[later]!)
    if (trend.earliest === null || trend.latest === null) return false
    return Math.ceil(trend.earliest) <= 7 * later && 7 * later <= Math.ceil(trend.latest)
  }

  test('four weekly Syrah means hold the fifth, where the straight line did not', () => {
    expect(holds(SYRAH, 4, 4)).toBe(true)
    expect(predictReading(syrah, 28).low).toBeGreaterThan(SYRAH[4]!)
  })

  test('every series cut off before its last means is held in at least nine of ten', () => {
    const cases = [SYRAH, SAUVIGNON, XINOMAVRO].flatMap((series) =>
      series.flatMap((_, seen) =>
        seen < 3 ? [] : series.slice(seen).map((__, ahead) => holds(series, seen, seen + ahead)),
      ),
    )
    const held = cases.filter(Boolean).length
    console.log(`sugar-trend on real weekly series: ${held} of ${cases.length} later means held at 90 %`)
    expect(cases.length).toBe(10)
    expect(held).toBeGreaterThanOrEqual(9)
  })
})

interface AnscombeRow {
  Series: string
  X: number
  Y: number
}

describe('Anscombe 1973', () => {
  const file = new URL('../../node_modules/vega-datasets/data/anscombe.json', import.meta.url)
  const data = JSON.parse(readFileSync(file, 'utf8')) as AnscombeRow[]
  const fitOf = (series: string): Fit =>
    fitLine(data.filter((row) => row.Series === series).map((row) => ({ x: row.X, y: row.Y })))
  published([
    ...['I', 'II', 'III', 'IV'].flatMap((series) =>
      rows(`The American Statistician 27:17-21, series ${series}`, 'read', [
        ['intercept', () => fitOf(series).intercept, 3.0, 0.005],
        ['slope', () => fitOf(series).slope, 0.5, 5e-4],
        ['SE of slope', () => fitOf(series).slopeError, 0.118, 5e-4],
      ]),
    ),
    ...(
      [
        ['I', 2.9975, 0.5003, 1.2381, 0.118, 11.9984, 0.2849, [10.194, 16.1924], [5.9248, 20.4616]],
        ['III', 3.0025, 0.4997, 1.2363, 0.1179, 12.0016, 0.2847, [10.1973, 16.1958], [5.9312, 20.4619]],
      ] as const
    ).flatMap(([series, b0, b1, s, se, x, g, mean, one]) => {
      const inverse = (newReadings: 1 | 'mean') => inversePrediction(fitOf(series), 9, { newReadings })
      return rows(`anscombe.json of vega-datasets, series ${series}`, 'derived', [
        ['b0', () => fitOf(series).intercept, b0, 5.1e-5],
        ['b1', () => fitOf(series).slope, b1, 5.1e-5],
        ['s', () => fitOf(series).s, s, 5.1e-5],
        ['SE(b1)', () => fitOf(series).slopeError, se, 5.1e-5],
        ['x at 9', () => inverse(1).x, x, 5.1e-5],
        ['g', () => inverse(1).g, g, 5.1e-5],
        ['low, mean', () => inverse('mean').low, mean[0], 5.1e-5],
        ['high, mean', () => inverse('mean').high, mean[1], 5.1e-5],
        ['low, new reading', () => inverse(1).low, one[0], 5.1e-5],
        ['high, new reading', () => inverse(1).high, one[1], 5.1e-5],
      ])
    }),
  ])

  test('the line itself is surer than the next reading', () => {
    const fit = fitOf('I')
    expect(meanResponse(fit, 9).high - meanResponse(fit, 9).low).toBeLessThan(
      predictReading(fit, 9).high - predictReading(fit, 9).low,
    )
  })
})
