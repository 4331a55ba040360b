import { describe } from 'vitest'
import { convert } from '../../src/records/units.ts'
import { afterMix } from '../../src/reports/mix/against.ts'
import { totals } from '../../src/reports/totals/report.ts'
import { findingsOf, ledgerOf } from '../ledger/in-memory.ts'
import { answer, type Data } from '../worked/answer.ts'
import { type PublishedRow, published } from './rows.ts'

// The worked examples of tests/published/spraying.test.ts, resistance-and-copper.test.ts and disease.test.ts once
// more, as a grower would type them: through the command line, its units, the reports and the rules.

const calibrate = (options: Parameters<typeof answer>[1]) => answer('calibrate', options)
const mix = (options: Parameters<typeof answer>[1]) => answer('mix', options)
const inUnit = ({ value, unit }: { value: number; unit: string }, wanted: string) =>
  convert(value, unit, wanted)

type Short = [
  id: string,
  source: string,
  got: PublishedRow['got'],
  want: PublishedRow['want'],
  within?: number,
]
const rows =
  (basis: PublishedRow['basis']) =>
  (list: Short[]): void =>
    published(
      list.map(([id, source, got, want, within]) => ({
        ...{ id, source, basis, got, want },
        ...(within === undefined ? {} : { within }),
      })),
    )
const read = rows('read')
const secondHand = rows('second-hand')
const derived = rows('derived')

const teagasc = 'Teagasc crop-spraying paper 2010, second-hand, read on independent.ie'
const albany = 'Albany County (WY) Weed & Pest, year not known, 5940 formula'
const florida = 'University of Florida band-spray table, UF00067548 p. 6, year not known'
const clemson = 'Clemson University Extension, 1/128-acre table, year not known'
const utah = 'Utah State University Extension 2014-03'
const carolina = 'NC State Extension, Christmas-tree backpack sheet, year not known'

describe('calibrate', async () => {
  const s01 = await calibrate({ flow: '1.3 L/min', speed: '7.8 km/h', width: '0.5 m', wanted: '200 L/ha' })
  const s02 = await calibrate({ flow: '3.75 US gal/min', speed: '5 mph', width: '222 in' })
  const s03 = await calibrate({ caught: '26 US fl oz', plot: '300 ft2' })
  const s05 = await calibrate({ caught: '140 US fl oz', plot: '3400 ft2' })
  const plot = (width: string, caught = '1 US fl oz') => calibrate({ caught, plot: '1/128 acre', width })
  const [s06, s07a, s07b, s07c, s08] = await Promise.all(
    ['12 ft', '20 in', '28 in', '36 in', '6 ft'].map((one) => plot(one)),
  )
  const s09 = await plot('6 ft', '7.5 US fl oz')
  const s10 = await plot('6 ft', '25 US fl oz')
  const s17 = await calibrate({ distance: '88 ft', seconds: '60', width: '8.25 ft', flow: '1 L/min' })
  const run72 = await calibrate({ distance: '100 m', seconds: '72', width: '2 m', flow: '1 L/min' })
  const ozkan = async (wanted: string) =>
    calibrate({ flow: '8 L/min', speed: '6 km/h', width: '2 m', wanted })
  const [inside, outside] = [await ozkan('420 L/ha'), await ozkan('425 L/ha')]
  const us495 = await calibrate({
    flow: '3.2 US gal/min',
    speed: '3 mph',
    width: '9 ft',
    wanted: '50 US gal/acre',
  })
  const gallons = ({ volumePerHa }: Data) => inUnit(volumePerHa, 'US gal/acre')
  const course = (data: Data) => inUnit(data.course, 'ft')

  read([
    ['report, printed', albany, () => gallons(s02), 20, 0.5],
    ['report, printed', florida, () => gallons(s03), 29.5, 0.05],
    ['report, printed', 'LSU AgCenter, boomless sprayers, year not known', () => gallons(s05), 14, 0.5],
    ['report, printed', utah, () => course(s06), 28.4, 0.05],
    ['report, 20 in', clemson, () => course(s07a), 204, 0.5],
    ['report, 28 in', clemson, () => course(s07b), 146, 0.5],
    ['report, 36 in', clemson, () => course(s07c), 113, 0.5],
    // The sheet takes 340 for 340.3 square feet and rounds up.
    ['report, printed', carolina, () => course(s08), 57, 0.5],
    ['report', carolina, () => gallons(s09), 7.5, 1e-9],
    ['report', 'UF/IFAS Alachua 2022', () => gallons(s10), 25, 1e-9],
    [
      'report, 88 feet a minute',
      'University of Nebraska pesticide education, year not known',
      () => inUnit(s17.speed, 'mph'),
      1,
    ],
    ['within 5 %, report', 'Ozkan 2021, Ohio State FABE-537', () => inside.wanted.ok, true],
    ['more than 5 % off, report', 'Ozkan 2021, Ohio State FABE-537', () => outside.wanted.ok, false],
  ])
  secondHand([
    ['report', teagasc, () => s01.volumePerHa.value, 200],
    ['speed of a run, report', `${teagasc}: 360 / seconds`, () => run72.speed.value, 5],
  ])
  derived([
    ['report, flow needed', teagasc, () => s01.wanted.flowNeeded.value, 1.3],
    ['report, exact', albany, () => gallons(s02), (5940 * 3.75) / (5 * 222)],
    ['report, exact', florida, () => gallons(s03), 29.494, 5e-4],
    ['report, exact', 'LSU AgCenter, boomless sprayers, year not known', () => gallons(s05), 14.013, 5e-4],
    ['report, exact', utah, () => course(s06), 340.3125 / 12],
    ['report, exact 20 in', clemson, () => course(s07a), 204.19, 0.005],
    ['report, exact 28 in', clemson, () => course(s07b), 145.85, 0.005],
    ['report, exact 36 in', clemson, () => course(s07c), 113.44, 0.005],
    [
      'constant 495, report',
      'Mesa County (CO) weed department, year not known',
      () => gallons(us495),
      (495 * 3.2) / (3 * 9),
    ],
    [
      'constant 495, flow needed, report',
      'University of Massachusetts, block worksheet, year not known',
      () => inUnit(us495.wanted.flowNeeded, 'US gal/min'),
      (50 * 3 * 9) / 495,
    ],
  ])
})

describe('mix', async () => {
  const canada = 'Canadian provincial factsheet, Calculating Spray Application Information, year not known'
  const awri = 'AWRI, Spray application in vineyards: getting dose and coverage right, year not known'
  const wiki = 'French agro-ecology wiki, year not known: at most 5 g/L'
  const lwg = 'LWG Bayern, Das Laubwandflächen-Modell, year not known'
  const hectare = { area: '1 ha', tank: '1000 L' }
  const s11 = await mix({ area: '20 ha', water: '200 L/ha', tank: '1000 L', dose: 'a=1 kg/ha' })
  const s13 = await mix({ ...hectare, water: '750 L/ha', dose: 'a=2.8 kg/500 L' })
  const dilute = await mix({ ...hectare, water: '1500 L/ha', dilute: '1500 L/ha', dose: 'a=100 mL/100 L' })
  const strong = await mix({ ...hectare, water: '500 L/ha', dilute: '1500 L/ha', dose: 'a=100 mL/100 L' })
  const s36 = await mix({ ...hectare, water: '400 L/ha', dose: 'a=5.6 kg/ha' })
  const s36typed = await mix({ ...hectare, water: '400 L/ha', dose: 'a=14 g/L', max: '5.6 kg/ha' })
  const wall = await mix({
    ...hectare,
    water: '300 L/ha',
    'row-spacing': '2 m',
    'canopy-height': '1.2 m',
    dose: 'a=0.5 L/10000 m2 leaf wall',
  })
  // 3500 m³/ha at 0.2 L/m³, that is 35 unit canopy rows at 20 L.
  const volume = await mix({
    ...hectare,
    water: '700 L/ha',
    'row-spacing': '2 m',
    'canopy-height': '1.4 m',
    'canopy-width': '0.5 m',
    dilute: '0.2 L/m3',
    dose: 'a=100 mL/100 L',
  })
  const lime = await mix({
    area: '1 acre',
    water: '100 US gal/acre',
    tank: '100 US gal',
    dose: 'a=10 US gal/acre',
  })
  const dose = async (text: string) =>
    (await mix({ ...hectare, water: '100 L/ha', dose: `a=${text}` })).products[0].rate.value
  const water = async (text: string) =>
    (await mix({ ...hectare, water: text, dose: 'a=1 kg/ha' })).waterPerHa.value
  const rates = {
    pound: await dose('1 lb/acre'),
    ounce: await dose('1 oz/acre'),
    fluid: await dose('1 US fl oz/acre'),
    pint: await dose('1 US pt/acre'),
    waxman: await dose('2.5 lb/acre'),
  }
  const [usGallon, impGallon] = [await water('1 US gal/acre'), await water('1 imp gal/acre')]
  const of = (data: Data) => data.products[0]
  const legal =
    'legal definitions of 1959 (inch, pound) and of the gallons, worked out here, international acre'

  read([
    ['report, water', canada, () => s11.water.value, 4000],
    ['report, tanks', canada, () => s11.fullTanks, 4],
    ['report', 'Ontario, onfruit.ca 2020-07-09', () => of(s13).rate.value, 4.2],
    ['report, factor', awri, () => of(strong).concentrationFactor, 3],
    ['report, mL/100 L', awri, () => of(strong).concentration.value * 100, 300],
    ['report, dilute mL/100 L', awri, () => of(dilute).concentration.value * 100, 100],
  ])
  secondHand([['report', teagasc, () => impGallon, 11.2, 0.05]])
  derived([
    ['report, last tank', canada, () => s11.lastTank.value, 0],
    ['report, dose of the concentrate', awri, () => of(strong).rate.value, 1.5],
    ['report, dose of the dilute', awri, () => of(dilute).rate.value, 1.5],
    ['report, factor of the dilute', awri, () => of(dilute).concentrationFactor, 1],
    ['report, concentration', wiki, () => of(s36).concentration.value, 14],
    ['report, typed as 14 g/L', wiki, () => of(s36typed).rate.value, 5.6],
    ['report, within its most for ground area', wiki, () => of(s36typed).inRange, true],
    ['report', lwg, () => of(wall).rate.value, 0.6],
    [
      'report, dilute 700 L/ha',
      'Furness et al. 1998, Crop Protection 17',
      () => of(volume).concentrationFactor,
      1,
    ],
    ['report, dose', 'Furness et al. 1998, Crop Protection 17', () => of(volume).rate.value, 0.7],
    [
      'lime sulphur, product',
      'UC IPM after Adaskaveg et al. 2022: 93.5 L/ha',
      () => of(lime).rate.value,
      93.5,
      0.05,
    ],
    [
      'lime sulphur, water',
      'UC IPM after Adaskaveg et al. 2022: 935 L/ha',
      () => lime.waterPerHa.value,
      935,
      0.5,
    ],
    ['report', legal, () => of(lime).rate.value, 93.54, 0.005],
    ['lb/acre, report', legal, () => rates.pound, 1.120851, 5e-7],
    ['oz/acre, report', legal, () => rates.ounce * 1000, 70.0532, 5e-5],
    ['US fl oz/acre, report', legal, () => rates.fluid * 1000, 73.07778, 5e-6],
    ['US pt/acre, report', legal, () => rates.pint, 1.169245, 5e-7],
    ['US gal/acre, report', legal, () => usGallon, 9.353956, 5e-7],
    ['imp gal/acre, report', legal, () => impGallon, 11.233633, 5e-7],
    [
      'report',
      'Agrochemical and Pesticide Safety Handbook, excerpt, year not known: 2.5 lb of an 80 % WP hold 2 lb',
      () => convert(rates.waxman * 0.8, 'kg/ha', 'lb/acre'),
      2,
    ],
  ])
})

const spray = (date: string, products: string[], more = '') =>
  `- date: ${date}\n  blocks: [upper]\n  water: 300 L/ha\n${more}  products:\n${products.map((one) => `    - { product: ${one} }\n`).join('')}`
const product = (text: { active: string; use: string; more?: string; form?: string }) =>
  `name: P\nform: ${text.form ?? 'WG'}\nkind: fungicide\nactives: [ { ${text.active} } ]\nuses:\n  - { ${text.use} }\n${text.more ?? ''}`

describe('totals', () => {
  const eu = 'Implementing Regulation (EU) 2018/1981; trailing by analogy with Regulation (EC) 889/2008'
  const used = [5.2, 3.1, 4.8, 2.0, 4.4, 5.0, 3.0, 4.9, 2.2]
  const trailing = [5.2, 8.3, 13.1, 15.1, 19.5, 24.5, 27.5, 27.2, 26.3]
  const metal = product({
    active: 'name: copper, content: 500 g/kg, group: M01',
    use: 'against: downy, rate: 0.5-20 kg/ha',
  })
  const book = ledgerOf({
    'vineyard.yaml':
      'name: T\nlatitude: 51.5\ntimezone: Europe/Berlin\nlimits: { copper: { rolling: 28 kg/ha, years: 7 } }\n',
    'products/metal.yaml': metal,
    ...Object.fromEntries(
      used.map((amount, index) => [
        `seasons/${2019 + index}/sprays.yaml`,
        spray(`${2019 + index}-06-01`, [`metal, rate: ${amount * 2} kg/ha, for: downy`]),
      ]),
    ),
  })
  const of = (ledger: ReturnType<typeof ledgerOf>, season: number, asOf = `${season}-10-01`) =>
    totals({ ledger, season, asOf, blocks: [...ledger.blocks.values()].filter(({ id }) => id === 'upper') })
      .data
  const copper = (season: number, asOf?: string) => of(book, season, asOf).blocks[0]!.copper
  const one = (record: string, rate: string) =>
    of(
      ledgerOf({
        'products/p.yaml': record,
        'seasons/2026/sprays.yaml': spray('2026-06-01', [`p, rate: ${rate}, for: downy`]),
      }),
      2026,
    ).blocks[0]!
  const hydroxide = product({
    active: 'name: copper hydroxide, content: 1000 g/kg, group: M01, as: compound',
    use: 'against: downy, rate: 0.5-3 kg/ha',
  })
  const held = (content: number) =>
    product({
      active: `name: copper, content: ${content} g/kg, group: M01`,
      use: 'against: downy, rate: 0.5-3 kg/ha',
    })
  const two = of(
    ledgerOf({
      'products/half.yaml': product({ active: 'name: a', use: 'against: downy, rate: 1-2 kg/ha' }),
      'products/full.yaml': product({ active: 'name: b', use: 'against: powdery, rate: 1-3 kg/ha' }),
      'seasons/2026/sprays.yaml': spray('2026-06-01', [
        'half, rate: 1 kg/ha, for: downy',
        'full, rate: 3 kg/ha, for: powdery',
      ]),
    }),
    2026,
  ).blocks[0]!
  read([['report', 'La Vigne 229 (2011); Réussir Vigne, year not known', () => two.treatmentFrequency, 1.5]])
  derived([
    [
      'report',
      'abridged atomic weights of IUPAC, year not known, worked out here',
      () => one(hydroxide, '2.0 kg/ha').copper.season!.value,
      1.3027,
      5e-5,
    ],
    [
      'report',
      'Implementing Regulation (EU) 2018/1981 counts the metal, worked out here',
      () => one(held(500), '3 kg/ha').copper.season!.value,
      1.5,
    ],
    [
      'report',
      'Implementing Regulation (EU) 2018/1981 counts the metal, worked out here',
      () => one(held(300), '2 kg/ha').copper.season!.value,
      0.6,
    ],
    ...trailing.map(
      (want, index): Short => [
        `report, ${2019 + index}`,
        eu,
        () => copper(2019 + index).rolling!.value,
        want,
      ],
    ),
    ['report, room at the start of 2026', eu, () => copper(2026, '2026-01-02').roomRolling!.value, 5.7],
  ])
})

describe('the rules', () => {
  const deltaT = (temperature: number, humidity: number) =>
    /were ([\d.]+) °C apart \(Delta T\): (over|under) \d+/
      .exec(
        findingsOf('delta-t', {
          'seasons/2026/sprays.yaml': spray(
            '2026-06-01',
            ['sulphur, rate: 3 kg/ha, for: powdery'],
            `  weather: { temperature: ${temperature} C, humidity: ${humidity} % }\n`,
          ),
        })[0]?.message ?? '',
      )
      ?.slice(1)
      .join(' ') ?? 'ideal'
  const bureau =
    'Australian Bureau of Meteorology, year not known; wet bulb by the ASHRAE equations as PsychroLib 1.1.1 runs them'
  derived([
    ['rule', bureau, () => deltaT(20, 50), 'ideal'],
    ['rule', bureau, () => deltaT(30, 30), '12.0 over'],
    ['rule', bureau, () => deltaT(10, 90), '0.8 under'],
  ])

  const following = (
    zone: string,
    of: { date: string; end?: number; hours: number[]; days?: number; interval?: number },
  ) => {
    const files = Object.fromEntries(
      of.hours.map((hours, index) => [
        `products/h${index}.yaml`,
        product({
          active: 'name: a',
          use: `against: downy, rate: 1-3 kg/ha${of.interval ? `, interval: ${of.interval}-30 d` : ''}`,
          more: `re_entry: ${hours} h\n${of.days ? `before_harvest: ${of.days} d\n` : ''}`,
        }),
      ]),
    )
    const ledger = ledgerOf({
      'vineyard.yaml': `name: T\nlatitude: ${zone.startsWith('Aus') ? -35 : 51}\ntimezone: ${zone}\n`,
      ...files,
    })
    const parts = of.hours.map((_, index) => ({
      product: ledger.products.get(`h${index}`)!,
      targets: undefined,
    }))
    const time = of.end === undefined ? undefined : { start: 360, end: of.end }
    return afterMix({ date: of.date, ...(time ? { time } : {}) }, parts, ledger)
  }
  const s44 = () => following('Europe/London', { date: '2025-08-20', hours: [12], days: 21 }).harvest!
  const calendar =
    'waiting time in days on the label as NPIC, Oregon State University 2018, explains it; dates worked out here'
  const clock =
    '40 CFR 170, as amended in 2015 and since: the longest, from the end of the application; elapsed hours'
  derived([
    [
      'report, cautious',
      'a farm-assurance standard, year not known: end of the day',
      () => s44().cautious,
      '2025-09-11',
    ],
    ['report, the day of spraying as day 0', calendar, () => s44().calendar, '2025-09-10'],
    [
      'report, over 29 February',
      calendar,
      () => following('Europe/London', { date: '2024-02-20', hours: [12], days: 14 }).harvest!.calendar,
      '2024-03-05',
    ],
    [
      'report',
      clock,
      () => following('Europe/London', { date: '2025-06-14', end: 585, hours: [12, 24] }).reEntry!.until,
      '2025-06-15T09:45+01:00',
    ],
    [
      'report',
      clock,
      () => following('Australia/Adelaide', { date: '2025-10-04', end: 1080, hours: [24] }).reEntry!.until,
      '2025-10-05T19:00+10:30',
    ],
  ])
  const both = (rule: string) =>
    findingsOf(rule, {
      'products/b.yaml': product({
        active: 'name: potassium bicarbonate, group: NC',
        form: 'SP',
        use: 'against: powdery, rate: 1.1-5.6 kg/ha, concentration: 1-5 g/L',
      }),
      'seasons/2026/sprays.yaml': spray('2026-06-01', ['b, rate: 5.6 kg/ha, for: powdery']).replace(
        '300 L/ha',
        '400 L/ha',
      ),
    }).length
  derived([
    [
      'rule: the rate is kept',
      'French agro-ecology wiki, year not known: 1.1-5.6 kg/ha',
      () => both('over-rate'),
      0,
    ],
    [
      'rule: the concentration is not',
      'French agro-ecology wiki, year not known: at most 5 g/L',
      () => both('over-concentration'),
      1,
    ],
  ])
})

describe('vines and area of a block', async () => {
  const { vinesOf, areaOf } = await import('../../src/facts/block-size.ts')
  const block = (text: string) =>
    ledgerOf({ 'blocks/upper.yaml': `name: U\nvariety: palava\n${text}` }).blocks.get('upper')!
  const kiwi = block('rows: 19\nrow_length: 210 ft\nrow_spacing: 11 ft\nvine_spacing: 10 ft\n')
  read([
    [
      'record',
      'University of New Hampshire kiwiberry guide, year not known',
      () => vinesOf(kiwi).planted,
      399,
    ],
  ])
  derived([
    [
      'record, acres',
      'University of New Hampshire kiwiberry guide, year not known',
      () => convert(areaOf(kiwi), 'ha', 'acre'),
      1.0076,
      5e-5,
    ],
  ])
})
