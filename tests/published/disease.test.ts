// "derived" rows were worked out from the rules or equations of the named source; none of them is printed by it.
import studentQuantile from '@stdlib/stats-base-dists-t-quantile'
import { blackRotOfSpell } from '../../src/agronomy/disease/black-rot.ts'
import { botrytisInfection } from '../../src/agronomy/disease/botrytis-infection.ts'
import { unitsToDetect } from '../../src/agronomy/disease/detection.ts'
import { downyIncubation } from '../../src/agronomy/disease/downy-incubation.ts'
import { downyIncubationDays } from '../../src/agronomy/disease/downy-incubation-days.ts'
import { downyPrimary } from '../../src/agronomy/disease/downy-primary.ts'
import { DOWNY_PRIMARY_RULES } from '../../src/agronomy/disease/downy-primary-rules.ts'
import { incidence } from '../../src/agronomy/disease/incidence.ts'
import { incidenceDifference } from '../../src/agronomy/disease/incidence-difference.ts'
import { powderyIndex } from '../../src/agronomy/disease/powdery-index.ts'
import {
  longestPowderyInterval,
  type PowderyProductClass,
} from '../../src/agronomy/disease/powdery-interval.ts'
import { powderyStep } from '../../src/agronomy/disease/powdery-step.ts'
import { severity } from '../../src/agronomy/disease/severity.ts'
import { rainCover } from '../../src/agronomy/spraying/rain-cover.ts'
import { hoursOf, powderyDay, times } from '../agronomy/weather-maker.ts'
import { type PublishedRow, published } from './rows.ts'

const celsius = (fahrenheit: number) => ((fahrenheit - 32) * 5) / 9

const UC = 'powdery index by the UC rules, Gubler et al. 1999 as reprinted by Western Farm Press'
const S1_DAYS: [run: number, hot: boolean, index: number][] = [
  [7, false, 20],
  [6, false, 40],
  [5, false, 0],
  [8, false, 20],
  [6, false, 40],
  [9, false, 60],
  [4, false, 50],
  [0, false, 40],
  [10, false, 60],
  [6, true, 70],
  [3, true, 60],
  [7, false, 80],
  [7, false, 100],
  [6, false, 100],
  [6, true, 100],
  [0, false, 90],
]
const s1 = powderyIndex(hoursOf(S1_DAYS.flatMap(([run, hot]) => powderyDay(run, hot))))
const lastIndex = (days: ReturnType<typeof powderyDay>[]) => powderyIndex(hoursOf(days.flat())).at(-1)!.index
const sixHours = (temperature: number) =>
  powderyIndex(hoursOf([...times(6, { temperature }), ...times(18, { temperature: 5 })]))[0]!.index
const derived = (
  id: string,
  source: string,
  row: Pick<PublishedRow, 'got' | 'want' | 'within'>,
): PublishedRow => ({
  id,
  source,
  basis: 'derived',
  ...row,
})

published([
  ...S1_DAYS.map(([, , index], at) =>
    derived(`day ${at + 1}`, UC, { got: () => s1[at]!.index, want: index }),
  ),
  derived('the example', `${UC}, 5.75 h at 60`, {
    got: () => powderyStep({ index: 60, phase: 'running' }, { hoursInRange: 5.75, hot: false }).index,
    want: 50,
  }),
  derived('the example', `${UC}, favourable at 90`, {
    // Five good days to 100, and a bad one.
    got: () => lastIndex([6, 6, 6, 6, 6, 0, 6].map((run) => powderyDay(run))),
    want: 100,
  }),
  derived('the example', `${UC}, bad and hot at 0`, {
    // Three good days to 60, and six bad ones.
    got: () => lastIndex([...[6, 6, 6, 0, 0, 0, 0, 0, 0].map((run) => powderyDay(run)), powderyDay(0, true)]),
    want: 0,
  }),
  ...[
    [21.12, 20],
    [21.1, 0],
    [29.44, 20],
    [29.45, 0],
  ].map(([temperature, index]) =>
    derived(`${temperature} °C`, `${UC}, band 70-85 °F`, {
      got: () => sixHours(temperature!),
      want: index!,
    }),
  ),
])

// The program caps an interval by the longest that the table allows.
const INTERVALS: [PowderyProductClass, number, number | null][] = [
  ['biological', 0, 14],
  ['sulphur', 30, 21],
  ['dmi', 30, 21],
  ['strobilurin', 30, 21],
  ['biological', 40, 7],
  ['sulphur', 50, 17],
  ['dmi', 50, 21],
  ['strobilurin', 40, 21],
  ['biological', 60, null],
  ['sulphur', 60, 7],
  ['dmi', 100, 14],
  ['strobilurin', 100, 14],
]
published(
  INTERVALS.map(([productClass, index, want]) => ({
    id: `longest interval ${productClass} at ${index}`,
    source: 'UC IPM, Grape: Powdery Mildew, interval table, year not known',
    basis: 'memory',
    got: () => longestPowderyInterval(index, productClass),
    want,
  })),
)
const MEANS = [12, 13, 15, 18, 20, 16, 14, 19, 22, 21]
const HIGH_PROGRESS = [0.0704, 0.1498, 0.2521, 0.4024, 0.5911, 0.7076, 0.7976, 0.967, 1.1876]
const ROSSI = 'Rossi et al. 2002/2008, incubation equations'
const days = downyIncubation(MEANS, 1)
published([
  derived('high', ROSSI, { got: () => downyIncubationDays(15, 'high'), want: 9.775 }),
  derived('low', ROSSI, { got: () => downyIncubationDays(15, 'low'), want: 13.025 }),
  derived('high', ROSSI, { got: () => downyIncubationDays(20, 'high'), want: 5.3 }),
  derived('low', ROSSI, { got: () => downyIncubationDays(20, 'low'), want: 6.9 }),
  ...HIGH_PROGRESS.map((want, at) =>
    // Printed to four decimals.
    derived(`high, day ${at + 1}`, ROSSI, { got: () => days.earliest.progress[at]!, want, within: 5e-5 }),
  ),
  derived('high is done on day 9', ROSSI, { got: () => days.earliest.doneAt! + 1, want: 9 }),
  derived('low, day 9', ROSSI, { got: () => days.latest.progress[8]!, want: 0.905, within: 5e-5 }),
  derived('low, day 10', ROSSI, { got: () => days.latest.progress[9]!, want: 1.0651, within: 5e-5 }),
  derived('low is done on day 10', ROSSI, { got: () => days.latest.doneAt! + 1, want: 10 }),
  {
    id: 'the example',
    source:
      'Goidanich, Casarini & Foschi 1957, as given by a teaching page, 23.25 °C below 75 %: 18.1 % a day; the equation is a fit to it',
    basis: 'second-hand',
    got: () => 100 / downyIncubationDays(23.25, 'low')!,
    want: 18.1,
    within: 0.5, // a quadratic fit, not the table
  },
  {
    id: 'the example',
    source:
      'Goidanich, Casarini & Foschi 1957, as given by a teaching page, 19.75 °C above 75 %: 19.3 % a day; the equation is a fit to it',
    basis: 'second-hand',
    got: () => 100 / downyIncubationDays(19.75, 'high')!,
    want: 19.3,
    within: 1, // a quadratic fit, not the table
  },
  derived('shortest of the high-humidity equation is near 23.6 °C', ROSSI, {
    got: () =>
      downyIncubationDays(23.63, 'high')! <
      Math.min(...[23.5, 23.76].map((at) => downyIncubationDays(at, 'high')!)),
    want: true,
  }),
  ...(
    [
      [10, 10, true],
      [9.9, 10, false],
      [10, 9.9, false],
    ] as const
  ).map(
    ([rain, temperature, want]): PublishedRow => ({
      id: `10:10:24 with ${rain} mm at ${temperature} °C`,
      source: 'DPIRD Western Australia 2021; WineSkills, Plumpton, year not known',
      basis: 'read',
      got: () =>
        downyPrimary(
          hoursOf(times(72, { rain: rain / 24, temperature })),
          DOWNY_PRIMARY_RULES['ten-ten-twentyfour'],
        )[2]!.primary,
      want,
    }),
  ),
])

const BROOME = 'Broome et al. 1995, Phytopathology 85:97-102, equation'
const BOTRYTIS: [string, number, number, number, number, string][] = [
  ['the example', 5, 15, -1.602301, 0.16766, 'none'],
  ['the example', 8, 20, -0.626322, 0.348345, 'none'],
  ['the example', 12, 20, 0.38445, 0.594946, 'low'],
  ['the example', 16, 15, 0.697942, 0.667731, 'moderate'],
  ['the example', 16, 20, 1.395222, 0.801425, 'high'],
  ['the example', 24, 12, 0.872958, 0.705361, 'moderate'],
]
published([
  ...BOTRYTIS.flatMap(([id, hours, temperature, logit, share, risk]) => [
    // Printed to six decimals.
    derived(`${id} logit`, BROOME, {
      got: () => botrytisInfection(hours, temperature).logit,
      want: logit,
      within: 5e-7,
    }),
    derived(`${id} share`, BROOME, {
      got: () => botrytisInfection(hours, temperature).index,
      want: share,
      within: 5e-7,
    }),
    {
      ...{
        id: `${id} class`,
        source: `${BROOME}; bounds of the classes from memory`,
        basis: 'memory' as const,
      },
      ...{ got: () => botrytisInfection(hours, temperature).risk, want: risk },
    },
  ]),
  {
    id: 'read',
    source: `${BROOME}, as quoted by a public research note`,
    basis: 'second-hand',
    got: () => botrytisInfection(5, 15).index,
    want: 0.1677,
    within: 5e-5, // printed to four decimals
  },
  ...[
    [10.48, 0],
    [12.46, 0.5],
    [14.44, 1],
  ].map(([hours, want]) =>
    // The hours are printed to 0.01, worth 0.0013 of logit.
    derived(`at ${hours} h`, BROOME, {
      got: () => botrytisInfection(hours!, 20).logit,
      want: want!,
      within: 0.0013,
    }),
  ),
  derived('the curve peaks near 20.384 °C', BROOME, {
    got: () => {
      const at = (temperature: number) => botrytisInfection(16, temperature).logit!
      return at(20.384) > at(20.3) && at(20.384) > at(20.47)
    },
    want: true,
  }),
])

const SPOTTS = 'Spotts 1977, Phytopathology 67:1378-1381, table as printed by Michigan State University'
const blackRotHours = (temperature: number) => {
  const spell = { first: 0, last: 9, wetHours: 10, temperature, rain: 1, complete: true }
  return blackRotOfSpell({ day: 0, spells: [spell], unknownHours: 0 }).neededHours
}
published([
  ...[
    [50, 24],
    [55, 12],
    [60, 9],
    [65, 8],
    [70, 7],
    [75, 7],
    [80, 6],
    [85, 9],
    [90, 12],
  ].map(
    ([mean, want]): PublishedRow => ({
      id: mean === 60 ? 'the example' : `black rot at ${mean} °F`,
      source: SPOTTS,
      basis: 'second-hand',
      got: () => blackRotHours(celsius(mean!)),
      want: want!,
    }),
  ),
  derived('the example', `${SPOTTS}, on the line between rows`, { got: () => blackRotHours(15), want: 9.6 }),
  derived('the example', `${SPOTTS}, on the line between rows`, { got: () => blackRotHours(20), want: 7.4 }),
  derived('the example', `${SPOTTS}, on the line between rows`, { got: () => blackRotHours(30), want: 9.6 }),
  derived('the example', `${SPOTTS}, below the table`, { got: () => blackRotHours(8), want: null }),
])

const WILSON: [string, string, PublishedRow['basis'], number, number, number, number, number][] = [
  ['the example', 'Newcombe 1998, Stat. Med. 17:857-872', 'memory', 81, 263, 0.2553, 0.3662, 5e-5],
  ['recomputed', 'Wilson 1927, formula', 'derived', 81, 263, 0.255289, 0.36621, 5e-7],
  ['the example', 'Newcombe 1998, Stat. Med. 17:857-872', 'memory', 0, 20, 0, 0.1611, 5e-5],
  ['the example', 'Wilson 1927, formula', 'derived', 10, 100, 0.0552, 0.1744, 5e-5],
  ['the example', 'Singh et al. 2010 data, Wilson 1927 formula', 'derived', 250, 533, 0.427, 0.5115, 5e-5],
  ['incidence', 'Wilson 1927, formula', 'derived', 30, 100, 0.2189, 0.3958, 5e-5],
]
// Method 10, 95 %: affected and looked at now, then before; ends of the interval.
const NEWCOMBE: [number, number, number, number, number, number][] = [
  [56, 70, 48, 80, 0.0524, 0.3339],
  [9, 10, 3, 10, 0.1705, 0.809],
  [6, 7, 2, 7, 0.0582, 0.8062],
  [5, 56, 0, 29, -0.0381, 0.1926],
  [0, 10, 0, 20, -0.1611, 0.2775],
  [10, 10, 0, 20, 0.6791, 1],
]
const LEAVES = [0, 0.025, 0.15, 0.375, 0.625, 0.875].map((midpoint, grade) => ({
  midpoint,
  count: [70, 15, 10, 3, 2, 0][grade]!,
}))
const HORSFALL_BARRATT = [0, 0.015, 0.045, 0.09, 0.185, 0.375, 0.625]
const BY_HORSFALL_BARRATT = HORSFALL_BARRATT.map((midpoint, at) => ({
  midpoint,
  count: [60, 12, 10, 8, 5, 3, 2][at]!,
}))
published([
  ...WILSON.flatMap(([id, source, basis, affected, looked, low, high, within]): PublishedRow[] => [
    { id: `${id} low`, source, basis, got: () => incidence(affected, looked)!.low, want: low, within },
    { id: `${id} high`, source, basis, got: () => incidence(affected, looked)!.high, want: high, within },
  ]),
  ...NEWCOMBE.flatMap(([affected, looked, before, lookedBefore, low, high]): PublishedRow[] => {
    const source = 'Newcombe 1998, Stat. Med. 17:873-890, method 10, table of examples'
    const id = `${affected}/${looked} - ${before}/${lookedBefore}`
    const change = () =>
      incidenceDifference({ affected: before, looked: lookedBefore }, { affected, looked })!
    return [
      { id: `${id} low`, source, basis: 'memory', got: () => change().low, want: low, within: 5e-5 },
      { id: `${id} high`, source, basis: 'memory', got: () => change().high, want: high, within: 5e-5 },
    ]
  }),
  derived(
    'the normal quantile in the Wilson interval',
    '@stdlib/stats-base-dists-t-quantile 0.2.3, 1e9 degrees of freedom',
    {
      // With no success in n, Wilson's upper end is z^2 / (n + z^2).
      got: () => {
        const { high } = incidence(0, 50)!
        return Math.sqrt((high * 50) / (1 - high))
      },
      want: studentQuantile(0.975, 1e9),
      within: 1e-7,
    },
  ),
  derived('incidence', 'definition of incidence by Wine Australia, year not known, worked out here', {
    got: () => severity(LEAVES)!.incidence,
    want: 0.3,
  }),
  derived(
    'severity',
    'severity as the mean of the scores, Wine Australia, year not known, worked out here on class midpoints',
    {
      got: () => severity(LEAVES)!.severity,
      want: 0.0425,
    },
  ),
  derived(
    'affected only',
    'severity as the mean of the scores, Wine Australia, year not known, worked out here on class midpoints',
    {
      got: () => severity(LEAVES)!.severityAffected,
      want: 0.141667,
      within: 5e-7, // printed as 14.1667 %
    },
  ),
  derived('the example', 'Horsfall & Barratt 1945, midpoints', {
    got: () => severity(BY_HORSFALL_BARRATT)!.severity,
    want: 0.0465,
  }),
  derived('the example', 'textbook formula, year not known: ceil(ln 0.05 / ln 0.97)', {
    got: () => unitsToDetect(0.03),
    want: 99,
  }),
])

const rainEnd = (rain: number) =>
  rainCover({ sprayed: 0, asOf: 24, washOff: 25 }, [{ from: 0, to: 24, rain }]).reason
published([
  {
    id: '24.9 mm',
    source: 'La Vigne/Phytoma VI1532118402, year not known: 25 mm summed',
    basis: 'read',
    got: () => rainEnd(24.9),
    want: null,
  },
  {
    id: '25.0 mm',
    source: 'La Vigne/Phytoma VI1532118402, year not known: 25 mm summed',
    basis: 'read',
    got: () => rainEnd(25),
    want: 'washed off',
  },
])
