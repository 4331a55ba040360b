import { readFileSync } from 'node:fs'
import stdlibQuantile from '@stdlib/stats-base-dists-t-quantile'
import { describe, expect, test } from 'vitest'
import { meanInterval } from '../../src/agronomy/statistics/mean.ts'
import { fitLine, type Point } from '../../src/agronomy/statistics/regression.ts'
import { readingsNeeded } from '../../src/agronomy/statistics/sample-size.ts'
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
    ...rows('tables of Student 1908, three places', 'derived', [
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
    ...rows('tables of Student 1908, two-sided 95 % and 80 %, four places', 'derived', [
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
    ...rows('n by iterated t; s from Rankine et al. 1962 and Fiola (Maryland)', 'derived', [
      ...(
        [
          [1.25, 1.0, 9],
          [1.25, 0.25, 99],
          [2.0, 0.5, 64],
          [0.72, 1.0, 5],
        ] as const
      ).map(([sd, margin, n]): Short => [`s ${sd}, E ${margin}`, () => readingsNeeded({ sd, margin }), n]),
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
type Fit = typeof THERMOMETER

describe('lines through published readings', () => {
  published([
    ...rows('worked out here from the thermometer of Graybill & Iyer 1994, chapter 6', 'derived', [
      ['intercept', () => THERMOMETER.intercept, -3.139524, 5e-7],
      ['slope', () => THERMOMETER.slope, 1.030238, 5e-7],
      ['s', () => THERMOMETER.s, 0.234446, 5e-7],
    ]),
    ...rows('worked out here from the crystal growth of Graybill & Iyer 1994', 'derived', [
      ['intercept', () => CRYSTAL.intercept, 0.001429, 5e-7],
      ['slope', () => CRYSTAL.slope, 0.503429, 5e-7],
      ['s', () => CRYSTAL.s, 1.061767, 5e-7],
    ]),
  ])
})

const SYRAH = [12.28, 16.24, 20.19, 23.33, 25.07]
const SAUVIGNON = [13.06, 15.08, 17.35, 19.15]
const WEEKS = [0, 7, 14, 21]

describe('weekly means of the CC0 grape maturity data set (2019)', () => {
  const sauvignon = fitLine(zip(WEEKS, SAUVIGNON))
  const syrah = fitLine(zip(WEEKS, SYRAH))
  published([
    ...rows('Sauvignon blanc of the Grape Maturity Dataset 2019 (CC0), worked out here', 'derived', [
      ['intercept', () => sauvignon.intercept, 13.079, 5e-7],
      ['slope', () => sauvignon.slope, 0.293429, 5e-7],
      ['s', () => sauvignon.s, 0.137877, 5e-7],
    ]),
    ...rows('Syrah, first four, of the Grape Maturity Dataset 2019 (CC0), worked out here', 'derived', [
      ['intercept', () => syrah.intercept, 12.445, 5e-7],
      ['slope', () => syrah.slope, 0.53, 5e-7],
      ['s', () => syrah.s, 0.316307, 5e-7],
    ]),
  ])
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
      rows(
        `Anscombe 1973, The American Statistician 27:17-21, as given by vega-datasets, series ${series}`,
        'second-hand',
        [
          ['intercept', () => fitOf(series).intercept, 3.0, 0.005],
          ['slope', () => fitOf(series).slope, 0.5, 5e-4],
          ['SE of slope', () => fitOf(series).slopeError, 0.118, 5e-4],
        ],
      ),
    ),
    ...(
      [
        ['I', 2.9975, 0.5003, 1.2381, 0.118],
        ['III', 3.0025, 0.4997, 1.2363, 0.1179],
      ] as const
    ).flatMap(([series, b0, b1, s, se]) =>
      rows(`anscombe.json of vega-datasets 3.2.1, series ${series}`, 'derived', [
        ['b0', () => fitOf(series).intercept, b0, 5.1e-5],
        ['b1', () => fitOf(series).slope, b1, 5.1e-5],
        ['s', () => fitOf(series).s, s, 5.1e-5],
        ['SE(b1)', () => fitOf(series).slopeError, se, 5.1e-5],
      ]),
    ),
  ])
})
