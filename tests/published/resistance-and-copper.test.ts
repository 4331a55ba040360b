import { describe } from 'vitest'
import { type CopperCompound, copperPerHa } from '../../src/agronomy/spraying/active-content.ts'
import { copperWindow } from '../../src/agronomy/spraying/copper-window.ts'
import { deltaT } from '../../src/agronomy/spraying/delta-t.ts'
import { resolveDose } from '../../src/agronomy/spraying/dose.ts'
import { sulphurWeather, windBand } from '../../src/agronomy/spraying/spray-weather.ts'
import { convert } from '../../src/records/units.ts'
import { published } from './rows.ts'
import { groupFindings } from './sprayed-groups.ts'

/** What `check` finds in sprays of these groups, 49 against downy and all others against powdery. */
const breaches = (group: string, sprays: string[][]) =>
  groupFindings(sprays, { against: group === '49' ? 'downy' : 'powdery' })
const frac = 'FRAC OSBPI working group, January 2024, grapes'
const australia =
  'Avcare (now CropLife Australia), limits some 20 years old, second-hand, read in AWRI, year not known'

describe('resistance', () => {
  published([
    {
      id: 'the example',
      source: frac,
      basis: 'read',
      got: () => breaches('49', [['49'], ['M01'], ['49'], ['40']]),
      want: 'per-season',
    },
    {
      id: 'one of four',
      source: frac,
      basis: 'read',
      got: () => breaches('49', [['49'], ['M01'], ['M03'], ['40']]),
      want: '',
    },
    {
      id: 'two of five',
      source: frac,
      basis: 'read',
      got: () => breaches('49', [['49'], ['M01'], ['49'], ['40'], ['M01']]),
      want: '',
    },
    {
      id: 'three of nine',
      source: frac,
      basis: 'read',
      got: () => breaches('49', [['49'], ['1'], ['49'], ['1'], ['49'], ['1'], ['1'], ['1'], ['1']]),
      want: 'per-season',
    },
    {
      id: 'the example',
      source: frac,
      basis: 'read',
      got: () => breaches('49', [['M01'], ['49', 'M03'], ['49', 'M04'], ['M01'], ['M01']]),
      want: 'in-row',
    },
    {
      id: 'another between',
      source: frac,
      basis: 'derived',
      got: () => breaches('49', [['49'], ['M01'], ['49'], ['M01'], ['M01']]),
      want: '',
    },
    {
      id: 'three in a row',
      source: australia,
      basis: 'second-hand',
      got: () => breaches('3', [['3'], ['3'], ['3']]),
      want: 'in-row',
    },
    {
      id: 'two in a row',
      source: australia,
      basis: 'second-hand',
      got: () => breaches('3', [['3'], ['3']]),
      want: '',
    },
    {
      id: 'sulphur between',
      source: `${australia}; that sulphur breaks the row is our own reading`,
      basis: 'derived',
      got: () => breaches('3', [['3'], ['3'], ['M02'], ['3']]),
      want: '',
    },
    {
      id: 'three in the season',
      source: australia,
      basis: 'derived',
      got: () => breaches('3', [['3'], ['M02'], ['3'], ['M02'], ['3']]),
      want: '',
    },
    {
      id: 'four in the season',
      source: australia,
      basis: 'second-hand',
      got: () => breaches('3', [['3'], ['3'], ['M02'], ['3'], ['3']]),
      want: 'per-season',
    },
    ...['5', '13'].flatMap((group) => [
      {
        id: `group ${group}, three in a row`,
        source: australia,
        basis: 'second-hand' as const,
        got: () => breaches(group, [[group], [group], [group]]),
        want: 'in-row',
      },
      {
        id: `group ${group}, four in the season`,
        source: australia,
        basis: 'second-hand' as const,
        got: () => breaches(group, [[group], ['M02'], [group], ['M02'], [group], ['M02'], [group]]),
        want: 'per-season',
      },
    ]),
    {
      id: 'group 11, three in the season',
      source: 'AWRI eBulletin, 19 June 2012',
      basis: 'read',
      got: () => breaches('11', [['11'], ['M02'], ['11'], ['M02'], ['11']]),
      want: 'per-season',
    },
    {
      id: 'group 11, two in the season',
      source: 'AWRI eBulletin, 19 June 2012',
      basis: 'read',
      got: () => breaches('11', [['11'], ['M02'], ['11'], ['M02']]),
      want: '',
    },
    {
      id: 'the example',
      source: 'FRAC code list 2018: U8 became 50',
      basis: 'memory',
      got: () => groupFindings([['U8'], ['50']], { label: 'max_in_row: 1\n' }),
      want: 'in-row',
    },
  ])
})

describe('copper', () => {
  const shares: [CopperCompound, number][] = [
    ['hydroxide', 0.6514],
    ['oxychloride', 0.5951],
    ['copper(I) oxide', 0.8882],
    ['tribasic sulphate', 0.562],
    ['sulphate pentahydrate', 0.2545],
    ['octanoate', 0.1816],
  ]
  // Least copper of the technical material, g/kg: no pure compound holds less.
  const minima: [CopperCompound, number][] = [
    ['hydroxide', 573],
    ['oxychloride', 550],
    ['copper(I) oxide', 820],
    ['tribasic sulphate', 490],
  ]
  const years = [5.2, 3.1, 4.8, 2.0, 4.4, 5.0, 3.0, 4.9, 2.2]
  const trailing = [5.2, 8.3, 13.1, 15.1, 19.5, 24.5, 27.5, 27.2, 26.3]
  const eu = 'Implementing Regulation (EU) 2018/1981, 28 kg/ha over 7 years'
  const perYear = new Map(years.map((copper, index) => [2019 + index, copper]))
  const window = (year: number, used = perYear) => copperWindow({ perYear: used, year, limit: 28, years: 7 })
  const metal = (compound: CopperCompound) => copperPerHa({ productPerHa: 1, content: 1000, compound })
  published([
    ...shares.map(([compound, want]) => ({
      id: `copper in ${compound}`,
      source: 'abridged atomic weights of IUPAC, year not known, worked out here',
      basis: 'derived' as const,
      got: () => metal(compound),
      want,
      within: 5.1e-5, // printed to 4 decimals
    })),
    ...minima.map(([compound, least]) => ({
      id: `copper in ${compound} against the least of the technical material`,
      source: 'Implementing Regulation (EU) 2018/1981, annex I',
      basis: 'read' as const,
      got: () => metal(compound) * 1000 >= least,
      want: true,
    })),
    {
      id: 'the example',
      source: 'abridged atomic weights of IUPAC, year not known, worked out here',
      basis: 'derived',
      got: () => copperPerHa({ productPerHa: 2, content: 1000, compound: 'hydroxide' }),
      want: 1.3027,
      within: 5e-5,
    },
    {
      id: 'the example',
      source: 'Implementing Regulation (EU) 2018/1981 counts the metal, worked out here: no further factor',
      basis: 'derived',
      got: () => copperPerHa({ productPerHa: 3, content: 500 }),
      want: 1.5,
    },
    {
      id: 'the example',
      source: 'Implementing Regulation (EU) 2018/1981 counts the metal, worked out here',
      basis: 'derived',
      got: () => copperPerHa({ productPerHa: 2, content: 300 }),
      want: 0.6,
    },
    ...trailing.map((want, index) => ({
      id: `trailing sum ${2019 + index}`,
      source: eu,
      basis: 'derived' as const,
      got: () => window(2019 + index).sum,
      want,
    })),
    {
      id: 'room at the start of 2026',
      source: eu,
      basis: 'derived',
      got: () => window(2026, new Map([...perYear, [2026, 0]])).room,
      want: 5.7,
    },
    {
      id: 'fixed block from 2019',
      source: `${eu}, worked out here for a block from 1 January 2019, which was not read`,
      basis: 'derived',
      got: () => copperWindow({ perYear, year: 2025, limit: 28, years: 7, blockStart: 2019 }).sum,
      want: 27.5,
    },
    {
      id: 'next fixed block',
      source: `${eu}, worked out here for a block from 1 January 2019, which was not read`,
      basis: 'derived',
      got: () => copperWindow({ perYear, year: 2027, limit: 28, years: 7, blockStart: 2019 }).sum,
      want: 7.1,
    },
    {
      id: 'five years with the year in question',
      source: 'Regulation (EC) 889/2008: the year and the four before it (30 kg over 5 years)',
      basis: 'derived',
      got: () => copperWindow({ perYear, year: 2023, limit: 30, years: 5 }).sum,
      want: 19.5,
    },
    {
      id: 'concentration',
      source:
        'French agro-ecology wiki, year not known: at most 5 g/L; 5.6 kg/ha in 400 L/ha worked out here',
      basis: 'derived',
      got: () => resolveDose({ basis: 'ground', unit: 'kg', perHa: 5.6 }, { waterPerHa: 400 }).concentration,
      want: 14,
    },
  ])
})

describe('spray weather', () => {
  // Values of PsychroLib 1.1.1, the JavaScript library of the ASHRAE equations, run at 101.325 kPa.
  const ashrae = 'ASHRAE Handbook Fundamentals 2017, chapter 1, as PsychroLib 1.1.1 runs it at 101.325 kPa'
  const bureau =
    'Australian Bureau of Meteorology, Delta T bands, year not known, second-hand, as quoted by others'
  const waikato = 'Waikato Regional Council plan, chart 6.2.9, year not known'
  const air: [temperature: number, humidity: number, value: number, band: string][] = [
    [7, 61, 3.0523, 'ideal'],
    [10, 80, 1.7097, 'under'],
    [10, 90, 0.8428, 'under'],
    [15, 60, 4.1822, 'ideal'],
    [20, 50, 6.2166, 'ideal'],
    [25, 40, 8.79, 'marginal'],
    [30, 30, 12.0284, 'over'],
    [35, 20, 16.1296, 'over'],
    [-5, 50, 2.2522, 'ideal'],
  ]
  published([
    ...air.flatMap(([temperature, humidity, value, band]) => [
      {
        id: `Delta T at ${temperature} °C and ${humidity} %`,
        source: ashrae,
        basis: 'derived' as const,
        got: () => deltaT({ temperature, humidity }).value,
        want: value,
        within: 5e-4, // the library stops within 0.001 °C
      },
      {
        id: `its band at ${temperature} °C and ${humidity} %`,
        source: bureau,
        basis: 'second-hand' as const,
        got: () => deltaT({ temperature, humidity }).band,
        want: band,
      },
    ]),
    { id: 'wind 0.9 m/s', source: waikato, basis: 'read', got: () => windBand(0.9), want: 'still' },
    { id: 'wind 2 m/s', source: waikato, basis: 'read', got: () => windBand(2), want: 'low-hazard' },
    { id: 'wind 6.1 m/s', source: waikato, basis: 'read', got: () => windBand(6.1), want: 'strong' },
    {
      id: 'sulphur above 85 °F',
      source: 'University of Minnesota Extension 2021',
      basis: 'read',
      got: () => sulphurWeather({ temperature: convert(86, 'F', 'C') }).against.length,
      want: 1,
    },
    {
      id: 'sulphur at 84 °F',
      source: 'University of Minnesota Extension 2021',
      basis: 'read',
      got: () => sulphurWeather({ temperature: convert(84, 'F', 'C') }).against.length,
      want: 0,
    },
    {
      id: 'sulphur at 33 °C and 75 %',
      source: 'AWRI eBulletin, 13 October 2021',
      basis: 'read',
      got: () =>
        sulphurWeather({ temperature: 33, humidity: 75 }).against.some((text) => text.startsWith('AWRI')),
      want: true,
    },
    {
      id: 'sulphur at 33 °C and 60 %',
      source: 'AWRI eBulletin, 13 October 2021',
      basis: 'read',
      got: () =>
        sulphurWeather({ temperature: 33, humidity: 60 }).against.some((text) => text.startsWith('AWRI')),
      want: false,
    },
    {
      id: 'sulphur at 90 °F',
      source: 'UC IPM Pest Notes 7494, year not known: none near or over 90 °F',
      basis: 'read',
      got: () =>
        sulphurWeather({ temperature: 32.3, humidity: 40 }).against.some((text) => text.startsWith('UC')),
      want: true,
    },
    {
      id: 'sulphur at 14 °C',
      source: 'AWRI eBulletin, 13 October 2021: little vapour below 15 °C',
      basis: 'read',
      got: () => sulphurWeather({ temperature: 14 }).band,
      want: 'weak-vapour',
    },
  ])
})
