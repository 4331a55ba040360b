import { describe, expect, test } from 'vitest'
import { blockArea, vinesPerHa, vinesPlanted } from '../../src/agronomy/crop/area.ts'
import { activePerHa } from '../../src/agronomy/spraying/active-content.ts'
import {
  courseLength,
  PLOT_AREA,
  pressureForFlow,
  requiredFlow,
  speedFromRun,
  volumePerHectare,
  volumePerHectareFromPlot,
} from '../../src/agronomy/spraying/calibration.ts'
import { diluteFromRowVolume, leafWallPerHa, rowVolumePerHa } from '../../src/agronomy/spraying/canopy.ts'
import { resolveDose } from '../../src/agronomy/spraying/dose.ts'
import { mixingRank } from '../../src/agronomy/spraying/mixing-order.ts'
import { checkNozzles, checkRate } from '../../src/agronomy/spraying/nozzle-check.ts'
import { fillTanks } from '../../src/agronomy/spraying/tank.ts'
import { treatmentFrequency } from '../../src/agronomy/spraying/treatment-frequency.ts'
import { convert } from '../../src/records/units.ts'
import { published } from './rows.ts'

/** Our metric formula fed with US figures: flow, speed, width in; US gal/acre out. */
function gallonsPerAcre(run: { flow: [number, string]; mph: number; width: [number, string] }): number {
  const volume = volumePerHectare({
    flow: convert(run.flow[0], run.flow[1], 'L/min'),
    speed: convert(run.mph, 'mph', 'km/h'),
    width: convert(run.width[0], run.width[1], 'm'),
  })
  return convert(volume, 'L/ha', 'US gal/acre')
}

/** US gal/acre from what was caught over an area. */
function gallonsPerAcreOnPlot(caught: [number, string], squareFeet: number): number {
  const litres = convert(caught[0], caught[1], 'L')
  const volume = volumePerHectareFromPlot({ litres, area: convert(squareFeet, 'ft2', 'm2') })
  return convert(volume, 'L/ha', 'US gal/acre')
}

const plotSquareFeet = convert(PLOT_AREA, 'm2', 'ft2')
const courseFeet = (width: number, unit: string) =>
  convert(courseLength(convert(width, unit, 'm')), 'm', 'ft')

const teagasc = 'Teagasc crop-spraying paper 2010, second-hand, read on independent.ie'
const kentucky = 'orchard-math sheet, N. Ward 2018'
const clemson = 'Clemson University Extension, 1/128-acre table, year not known'

// Where a sheet prints rounded figures the difference accepted is half its last printed digit, or the exact
// value that the notes work out is wanted to its own last digit.
describe('calibration', () => {
  published([
    {
      id: 'the example',
      source: teagasc,
      basis: 'second-hand',
      got: () => volumePerHectare({ flow: 1.3, speed: 7.8, width: 0.5 }),
      want: 200,
    },
    {
      id: 'back',
      source: teagasc,
      basis: 'derived',
      got: () => requiredFlow({ volumePerHa: 200, speed: 7.8, width: 0.5 }),
      want: 1.3,
    },
    {
      id: 'printed',
      source: 'Albany County (WY) Weed & Pest, year not known, constant 5940',
      basis: 'read',
      got: () => gallonsPerAcre({ flow: [3.75, 'US gal/min'], mph: 5, width: [222, 'in'] }),
      want: 20,
      within: 0.5,
    },
    {
      id: 'exact',
      source: 'UF/IFAS EDIS WG013, year not known: 5940 x GPM / (MPH x inches)',
      basis: 'derived',
      got: () => gallonsPerAcre({ flow: [3.75, 'US gal/min'], mph: 5, width: [222, 'in'] }),
      want: (5940 * 3.75) / (5 * 222),
    },
    {
      id: 'constant 495',
      source: 'Mesa County (CO) weed department, year not known; University of Massachusetts block worksheet',
      basis: 'derived',
      got: () => gallonsPerAcre({ flow: [3.2, 'US gal/min'], mph: 3, width: [9, 'ft'] }),
      want: (495 * 3.2) / (3 * 9),
    },
    {
      id: 'constant 495, flow wanted',
      source: 'University of Massachusetts, block worksheet, year not known; University of Kentucky',
      basis: 'derived',
      got: () =>
        convert(
          requiredFlow({
            volumePerHa: convert(50, 'US gal/acre', 'L/ha'),
            speed: convert(2.5, 'mph', 'km/h'),
            width: convert(8, 'ft', 'm'),
          }),
          'L/min',
          'US gal/min',
        ),
      want: (50 * 2.5 * 8) / 495,
    },
    {
      id: 'constant 46.4',
      source:
        'Albany County (WY) Weed & Pest, year not known, fluid ounces a minute (prints 46.4 for 46.40625)',
      basis: 'read',
      got: () => gallonsPerAcre({ flow: [1, 'US fl oz/min'], mph: 1, width: [1, 'in'] }),
      want: 46.4,
      within: 0.05,
    },
    {
      id: 'printed',
      source: 'University of Florida band-spray table, UF00067548 p. 6, year not known',
      basis: 'read',
      got: () => gallonsPerAcreOnPlot([26, 'US fl oz'], 300),
      want: 29.5,
      within: 0.05,
    },
    {
      id: 'exact',
      source: 'University of Florida band-spray table, UF00067548 p. 6, year not known',
      basis: 'derived',
      got: () => gallonsPerAcreOnPlot([26, 'US fl oz'], 300),
      want: 29.494,
      within: 5e-4,
    },
    {
      id: 'printed',
      source: 'LSU AgCenter, boomless sprayers, year not known',
      basis: 'read',
      got: () => gallonsPerAcreOnPlot([140, 'US fl oz'], 3400),
      want: 14,
      within: 0.5,
    },
    {
      id: 'exact',
      source: 'LSU AgCenter, boomless sprayers, year not known',
      basis: 'derived',
      got: () => gallonsPerAcreOnPlot([140, 'US fl oz'], 3400),
      want: 14.013,
      within: 5e-4,
    },
    {
      id: 'area method, metric',
      source: 'area method, extension sheets, year not known: 10 x 10 m plot, litres x 100',
      basis: 'read',
      got: () => volumePerHectareFromPlot({ litres: 3, area: 100 }),
      want: 300,
    },
    {
      id: 'acre as a swath',
      source: 'University of Nebraska pesticide education, year not known: 8.25 ft x 1 mile is 1 acre',
      basis: 'read',
      got: () => convert(convert(8.25, 'ft', 'm') * convert(1, 'mile', 'm'), 'm2', 'acre'),
      want: 1,
    },
    {
      id: 'acre in square feet',
      source: 'University of Nebraska pesticide education, year not known',
      basis: 'read',
      got: () => convert(1, 'acre', 'ft2'),
      want: 43_560,
      within: 1e-6,
    },
    {
      id: 'speed',
      source: 'University of Nebraska pesticide education, year not known: 1 mph is 88 feet a minute',
      basis: 'read',
      got: () => convert(speedFromRun({ distance: convert(88, 'ft', 'm'), seconds: 60 }), 'km/h', 'mph'),
      want: 1,
    },
    {
      id: 'speed over 100 m',
      source: `${teagasc}: 360 / seconds`,
      basis: 'second-hand',
      got: () => speedFromRun({ distance: 100, seconds: 72 }),
      want: 5,
    },
    {
      id: 'speed',
      source: 'Teagasc crop-spraying paper 2010, as given by independent.ie: 3.6 x distance / seconds',
      basis: 'derived',
      got: () => speedFromRun({ distance: 100, seconds: 60 }),
      want: 6,
    },
    {
      id: 'volume',
      source: 'Teagasc crop-spraying paper 2010, as given by independent.ie: 600 q / (v w)',
      basis: 'derived',
      got: () => volumePerHectare({ flow: 8, speed: 6, width: 2 }),
      want: 400,
    },
    {
      id: 'pressure',
      source: 'textbook law of nozzles, year not known: four times the pressure doubles the flow',
      basis: 'memory',
      got: () => pressureForFlow({ pressure: 3, flow: 1.1, wantedFlow: 2.2 }),
      want: 12,
    },
  ])
  const nozzles = () => checkNozzles([1.0, 0.98, 1.02, 1.15, 0.85])
  published([
    ...[true, true, true, false, false].map((want, index) => ({
      id: `nozzle ${index + 1}, within 10 %`,
      source: 'state publications of Florida, quoted on study pages for examinations, year not known',
      basis: 'derived' as const,
      got: () => nozzles().nozzles[index]!.ok,
      want,
    })),
    {
      id: 'rate 5 % off',
      source: 'Ozkan 2021, Ohio State FABE-537',
      basis: 'read',
      got: () => checkRate({ actual: 420, wanted: 400 }).ok,
      want: true,
    },
    {
      id: 'rate more than 5 % off',
      source: 'Ozkan 2021, Ohio State FABE-537',
      basis: 'read',
      got: () => checkRate({ actual: 421, wanted: 400 }).ok,
      want: false,
    },
  ])
})

describe('1/128-acre plot', () => {
  published([
    {
      id: 'plot',
      source: 'Utah State University Extension 2014-03',
      basis: 'read',
      got: () => plotSquareFeet,
      want: 340.3,
      within: 0.05,
    },
    {
      id: 'plot exact',
      source:
        'Utah State University Extension 2014-03, worked out here from an acre of 43 560 square feet: 43560/128',
      basis: 'derived',
      got: () => plotSquareFeet,
      want: 340.3125,
    },
    {
      id: 'side of the plot',
      source: 'Utah State University Extension 2014-03 (18.45 ft)',
      basis: 'read',
      got: () => Math.sqrt(plotSquareFeet),
      want: 18.45,
      within: 0.005,
    },
    {
      id: 'printed',
      source: 'Utah State University Extension 2014-03',
      basis: 'read',
      got: () => courseFeet(12, 'ft'),
      want: 28.4,
      within: 0.05,
    },
    {
      id: 'exact',
      source: 'Utah State University Extension 2014-03: 340.3 / 12; the plot of 340.3125 gives 0.001 more',
      basis: 'derived',
      got: () => courseFeet(12, 'ft'),
      want: 28.358,
      within: 0.002,
    },
    ...(
      [
        [20, 204, 204.19],
        [28, 146, 145.85],
        [36, 113, 113.44],
      ] as const
    ).flatMap(([inches, printed, exact]) => [
      {
        id: `${inches} in, printed`,
        source: clemson,
        basis: 'read' as const,
        got: () => courseFeet(inches, 'in'),
        want: printed,
        within: 0.5,
      },
      {
        id: `${inches} in, exact`,
        source: `4083.75 / inches, after ${clemson}`,
        basis: 'derived' as const,
        got: () => courseFeet(inches, 'in'),
        want: exact,
        within: 0.005,
      },
    ]),
    {
      id: 'the example',
      source:
        'NC State Extension, Christmas-tree backpack sheet, year not known (uses 340 for 340.3 square feet)',
      basis: 'read',
      got: () => courseFeet(6, 'ft'),
      want: 56.6666,
      within: 0.06,
    },
    {
      id: 'rounded',
      source: 'NC State Extension, Christmas-tree backpack sheet, year not known',
      basis: 'read',
      got: () => Math.round(courseFeet(6, 'ft')),
      want: 57,
    },
    {
      id: 'rate',
      source: 'NC State Extension, year not known: 7.5 fl oz in the mean time of the passes (16 s, 18 s)',
      basis: 'read',
      got: () => gallonsPerAcreOnPlot([7.5, 'US fl oz'], plotSquareFeet),
      want: 7.5,
    },
    {
      id: 'the example',
      source: 'UF/IFAS Alachua 2022',
      basis: 'read',
      got: () => gallonsPerAcreOnPlot([25, 'US fl oz'], plotSquareFeet),
      want: 25,
    },
  ])
})

describe('tank and dose', () => {
  const awri = 'AWRI, Spray application in vineyards: getting dose and coverage right, year not known'
  const concentrate = () =>
    resolveDose({ basis: 'dilute', unit: 'L', perLitre: 1 }, { dilutePerHa: 1500, waterPerHa: 500 })
  const dilute = () =>
    resolveDose({ basis: 'dilute', unit: 'L', perLitre: 1 }, { dilutePerHa: 1500, waterPerHa: 1500 })
  const canada = 'Canadian provincial factsheet, Calculating Spray Application Information, year not known'
  published([
    {
      id: 'volume in fills',
      source: canada,
      basis: 'read',
      got: () => fillTanks({ volume: 200 * 20, tank: 1000 }).fills.reduce((sum, fill) => sum + fill, 0),
      want: 4000,
    },
    {
      id: 'tanks',
      source: canada,
      basis: 'read',
      got: () => fillTanks({ volume: 200 * 20, tank: 1000 }).fullTanks,
      want: 4,
    },
    {
      id: 'last tank',
      source: canada,
      basis: 'read',
      got: () => fillTanks({ volume: 200 * 20, tank: 1000 }).lastTank,
      want: 0,
    },
    {
      id: 'back',
      source: 'Agrochemical and Pesticide Safety Handbook, excerpt, year not known, 80 % WP',
      basis: 'derived',
      got: () => activePerHa({ productPerHa: 2.5, content: 800 }),
      want: 2,
    },
    {
      id: 'the example',
      source: 'Ontario, onfruit.ca 2020-07-09: 2.8 kg per 500 L, 750 L/ha',
      basis: 'read',
      got: () => resolveDose({ basis: 'spray', unit: 'kg', perLitre: 2800 / 500 }, { waterPerHa: 750 }).perHa,
      want: 4.2,
    },
    { id: 'factor', source: awri, basis: 'read', got: () => concentrate().concentrationFactor, want: 3 },
    {
      id: 'rate in the tank, mL/100 L',
      source: awri,
      basis: 'read',
      got: () => concentrate().concentration! * 100,
      want: 300,
    },
    {
      id: 'dose, concentrate, mL/ha',
      source: awri,
      basis: 'derived',
      got: () => concentrate().perHa! * 1000,
      want: 1500,
    },
    {
      id: 'dose, dilute, mL/ha',
      source: awri,
      basis: 'derived',
      got: () => dilute().perHa! * 1000,
      want: 1500,
    },
    {
      id: 'dilute rate in the tank',
      source: awri,
      basis: 'read',
      got: () => dilute().concentration! * 100,
      want: 100,
    },
    {
      id: 'the example',
      source: 'La Vigne 229 (2011); Reussir Vigne: half a dose and a full dose',
      basis: 'read',
      got: () =>
        treatmentFrequency([
          { dose: 1, referenceDose: 2, share: 1 },
          { dose: 3, referenceDose: 3, share: 1 },
        ]).index,
      want: 1.5,
    },
  ])
})

describe('canopy', () => {
  const lwg = 'LWG Bayern, Das Laubwandflächen-Modell, year not known'
  const canopy = { height: 1.4, width: 0.5, rowSpacing: 2 }
  const usTrees = () =>
    rowVolumePerHa({
      height: convert(7, 'ft', 'm'),
      width: convert(3, 'ft', 'm'),
      rowSpacing: convert(9, 'ft', 'm'),
    })
  published([
    {
      id: 'leaf wall',
      source: lwg,
      basis: 'derived',
      got: () => leafWallPerHa({ treatedHeight: 1.2, rowSpacing: 2 }),
      want: 12_000,
      within: 1e-8,
    },
    {
      id: 'dose',
      source: lwg,
      basis: 'derived',
      got: () =>
        resolveDose({ basis: 'leaf-wall', unit: 'L', per10000m2: 0.5 }, { leafWallPerHa: 12_000 }).perHa,
      want: 0.6,
    },
    {
      id: 'row volume',
      source: 'Byers 1987; Gil et al. 2007: height x width x 10 000 / row spacing, from memory',
      basis: 'memory',
      got: () => rowVolumePerHa(canopy),
      want: 3500,
    },
    {
      id: 'row volume, US',
      source: `${kentucky}: height x width x 43560 / row, cubic feet an acre`,
      basis: 'derived',
      got: () => (usTrees() / 0.3048 ** 3) * 0.40468564224,
      want: (7 * 3 * 43_560) / 9,
      within: 1e-6, // of 101 640
    },
    {
      id: 'dilute volume, US',
      source: `${kentucky}: volume x 0.7 / 1000, sparse canopy`,
      basis: 'derived',
      got: () => {
        const litresPerCubicMetre = (0.7 * 3.785411784) / (1000 * 0.3048 ** 3)
        return convert(
          diluteFromRowVolume({ rowVolumePerHa: usTrees(), litresPerCubicMetre }),
          'L/ha',
          'US gal/acre',
        )
      },
      want: (((7 * 3 * 43_560) / 9) * 0.7) / 1000,
    },
  ])
})

describe('vines and area', () => {
  const hampshire = 'University of New Hampshire kiwiberry guide, year not known'
  const rows = {
    rows: 19,
    rowLength: convert(210, 'ft', 'm'),
    rowSpacing: convert(11, 'ft', 'm'),
    vineSpacing: convert(10, 'ft', 'm'),
  }
  published([
    { id: 'vines', source: hampshire, basis: 'read', got: () => vinesPlanted(rows), want: 399 },
    {
      id: 'vines an acre',
      source: hampshire,
      basis: 'derived',
      got: () => convert(vinesPerHa(rows), 'L/ha', 'L/acre'),
      want: 396,
    },
    {
      id: 'area',
      source: hampshire,
      basis: 'derived',
      got: () => convert(blockArea(rows), 'ha', 'acre'),
      want: 1.0076,
      within: 5e-5,
    },
    {
      id: 'density',
      source: 'Hedrick 1919',
      basis: 'derived',
      got: () => vinesPerHa({ rowSpacing: 2, vineSpacing: 1 }),
      want: 5000,
    },
  ])
})

describe('units', () => {
  const nist = 'NIST SP 811 (2008) appendix B, as given by a public source file'
  const legal = 'legal definitions of 1959 (inch, pound) and of the US and imperial gallon, worked out here'
  // unit, base, printed by NIST with its last digit, exact
  const rows: [string, string, number | null, number, number][] = [
    ['acre', 'm2', null, 0, 4046.8564224],
    ['ha', 'm2', 1e4, 0, 10_000],
    ['US gal', 'L', 3.785412, 5e-7, 3.785411784],
    ['imp gal', 'L', 4.54609, 0, 4.54609],
    ['US fl oz', 'mL', 29.57353, 5e-6, 29.5735295625],
    ['imp fl oz', 'mL', 28.41306, 5e-6, 28.4130625],
    ['US pt', 'mL', 473.1765, 5e-5, 473.176473],
    ['US qt', 'mL', 946.3529, 5e-5, 946.352946],
    ['lb', 'kg', 0.4535924, 5e-8, 0.45359237],
    ['oz', 'g', 28.34952, 5e-6, 28.349523125],
    ['psi', 'kPa', 6.894757, 5e-7, 6.894757293168],
    ['bar', 'kPa', 100, 0, 100],
    ['mile', 'm', 1609.344, 0, 1609.344],
    ['ft', 'm', 0.3048, 0, 0.3048],
    ['in', 'm', 0.0254, 0, 0.0254],
    ['mph', 'km/h', null, 0, 1.609344],
    ['mph', 'm/s', null, 0, 0.44704],
  ]
  published(
    rows.flatMap(([unit, base, printed, within, exact]) => [
      ...(printed === null
        ? []
        : [
            {
              id: `${unit} in ${base}`,
              source: nist,
              basis: 'second-hand' as const,
              got: () => convert(1, unit, base),
              want: printed,
              within: within + 1e-12,
            },
          ]),
      {
        id: `${unit} in ${base}, exact`,
        source: legal,
        basis: 'derived' as const,
        got: () => convert(1, unit, base),
        want: exact,
      },
    ]),
  )
  const quotients: [string, string, number, number][] = [
    ['US gal/acre', 'L/ha', 9.353956, 5e-7],
    ['imp gal/acre', 'L/ha', 11.233633, 5e-7],
    ['lb/acre', 'kg/ha', 1.120851, 5e-7],
    ['oz/acre', 'g/ha', 70.0532, 5e-6],
    ['US fl oz/acre', 'mL/ha', 73.07778, 5e-6],
    ['US pt/acre', 'L/ha', 1.169245, 5e-7],
  ]
  published([
    ...quotients.map(([unit, base, want, within]) => ({
      id: `${unit} in ${base}`,
      source: legal,
      basis: 'derived' as const,
      got: () => convert(1, unit, base),
      want,
      within,
    })),
    {
      id: 'bar in psi',
      source: legal,
      basis: 'derived',
      got: () => convert(1, 'bar', 'psi'),
      want: 14.503773773,
      within: 5e-10,
    },
    {
      id: 'printed',
      source: teagasc,
      basis: 'second-hand',
      got: () => convert(1, 'imp gal/acre', 'L/ha'),
      want: 11.2,
      within: 0.05,
    },
    {
      id: 'exact',
      source: legal,
      basis: 'derived',
      got: () => convert(1, 'imp gal/acre', 'L/ha'),
      want: 11.2336,
      within: 5e-5,
    },
    {
      id: 'the example',
      source: 'UC IPM after Adaskaveg et al. 2022: 10 US gal/acre',
      basis: 'derived',
      got: () => convert(10, 'US gal/acre', 'L/ha'),
      want: 93.54,
      within: 0.005,
    },
  ])
})

describe('mixing order: where it follows the published orders', () => {
  const rank = (code: string) => mixingRank(code).rank!
  const [dakota, others] = [
    'North Dakota Weed Control Guide 2021, second-hand, as given by another',
    'Oklahoma State University Extension; Country Guide, year not known',
  ]
  const before: [string, string, string][] = [
    ['WG', 'SC', `${dakota}; ${others}`],
    ['WP', 'SC', `${dakota}; ${others}`],
    ['SC', 'EC', `${dakota}; ${others}`],
    ['SG', 'SC', dakota],
    ['SP', 'WG', dakota],
    ['SE', 'EW', dakota],
    ['EC', 'SL', `${dakota}; Country Guide, year not known`],
    ['SC', 'SL', `${dakota}; ${others}`],
  ]
  published(
    before.map(([first, then, source]) => ({
      id: `${first} before ${then}`,
      source,
      basis: 'second-hand',
      got: () => rank(first) < rank(then),
      want: true,
    })),
  )
})

describe('misprints of published sheets are not reproduced', () => {
  test('Cornell boom worksheet: speed by 60/80 instead of 60/88', () => {
    const mph = convert(speedFromRun({ distance: convert(176, 'ft', 'm'), seconds: 60 }), 'km/h', 'mph')
    expect(mph).toBeCloseTo((176 / 60) * (60 / 88), 9)
    expect(Math.abs(mph - (176 / 60) * (60 / 80))).toBeGreaterThan(0.1)
  })
  test('Florida study page: 327 gal/acre, without the 88', () => {
    const volume = gallonsPerAcre({ flow: [0.15, 'US gal/min'], mph: 5, width: [48, 'in'] })
    expect(volume).toBeCloseTo(3.71, 2)
    expect(volume).toBeLessThan(327 / 80)
  })
  test('UF/IFAS Alachua: a plot of 8.5 x 18.5 ft for 18.5 x 18.5 ft', () => {
    expect(Math.abs(plotSquareFeet - 18.5 ** 2)).toBeLessThan(2.5)
    expect(plotSquareFeet / (8.5 * 18.5)).toBeGreaterThan(2)
  })
  test('Clemson: 120 ft in the first boom row for a spacing of 20 in', () => {
    expect(Math.round(courseFeet(20, 'in'))).toBe(204)
  })
  test('University of Massachusetts: 35 is one gallon per 1245 cubic feet, not per 1450', () => {
    const perAcre = (cubicFeetPerGallon: number) => {
      const litresPerCubicMetre = 3.785411784 / (cubicFeetPerGallon * 0.3048 ** 3)
      const volume = rowVolumePerHa({ height: 0.3048, width: 0.3048, rowSpacing: 0.3048 })
      return convert(
        diluteFromRowVolume({ rowVolumePerHa: volume, litresPerCubicMetre }),
        'L/ha',
        'US gal/acre',
      )
    }
    expect(perAcre(1245)).toBeCloseTo(34.99, 2)
    expect(perAcre(1450)).toBeCloseTo(30.04, 2)
  })
})
