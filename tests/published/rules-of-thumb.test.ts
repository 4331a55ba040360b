import { describe } from 'vitest'
import { daysBetween } from '../../src/records/date.ts'
import { ready } from '../../src/reports/ready/report.ts'
import { ripeness } from '../../src/reports/ripeness/report.ts'
import { sugar } from '../../src/reports/sugar/report.ts'
import { window } from '../../src/reports/window/report.ts'
import { findingsOf, ledgerOf } from '../ledger/in-memory.ts'
import { SITE } from '../ledger/make.ts'
import { answer } from '../worked/answer.ts'
import { type PublishedRow, published } from './rows.ts'

/** Rules of the trade that have no source, each through the report that uses it; and the table of Troost. */

const rows = (
  source: string,
  basis: PublishedRow['basis'],
  list: [id: string, got: PublishedRow['got'], want: PublishedRow['want'], within?: number][],
): PublishedRow[] => list.map(([id, got, want, within]) => ({ id, source, basis, got, want, within }))
const thumb = (...list: Parameters<typeof rows>[2]) =>
  published(rows('common practice, no source', 'common practice', list))

const upper = (files: Record<string, string>, asOf: string) => {
  const ledger = ledgerOf(files)
  return { ledger, season: 2026, asOf, blocks: [ledger.blocks.get('upper')!] }
}

describe('potassium bicarbonate, 5 to 20 g/L', async () => {
  const tank = await answer('mix', { area: '0.01 ha', water: '1000 L/ha', tank: '10 L', dose: 'a=15 g/L' })
  const sprayed = (rule: string, strength: number) =>
    findingsOf(rule, {
      'products/bicarbonate.yaml':
        'name: P\nform: SP\nkind: fungicide\nactives: [ { name: potassium bicarbonate, group: NC } ]\nuses:\n  - { against: powdery, concentration: 5-20 g/L }\n',
      'seasons/2026/sprays.yaml': `- date: 2026-06-01\n  blocks: [upper]\n  water: 300 L/ha\n  products:\n    - { product: bicarbonate, concentration: ${strength} g/L, for: powdery }\n`,
    }).length
  thumb(
    ['15 g/L is 150 g in 10 L, g', () => tank.products[0].perFullTank.value * 1000, 150, 1e-9],
    ...[5, 15, 20].map((strength): [string, () => number, number] => [
      `${strength} g/L is within`,
      () => sprayed('over-concentration', strength) + sprayed('under-rate', strength),
      0,
    ]),
    ['4.9 g/L is under it', () => sprayed('under-rate', 4.9), 1],
    ['21 g/L is over it', () => sprayed('over-concentration', 21), 1],
    // The upper end of the range is where leaves can burn in heat.
    ['15 g/L is strong', () => sprayed('strong-bicarbonate', 15), 1],
    ['5 g/L is not', () => sprayed('strong-bicarbonate', 5), 0],
  )
})

describe('ripeness', () => {
  const from = (brix: number) => sugar({ reading: { scale: 'brix', value: brix } }, '2026-09-14').data
  const veraison = {
    'seasons/2026/stages.yaml': '- { date: 2026-08-05, block: upper, stage: 83, share: 50 % }\n',
  }
  const likely = (target: number) => {
    const { blocks } = window(upper(veraison, '2026-08-06'), { target }).data
    return daysBetween('2026-08-05', blocks[0]!.likely!)
  }
  const first = {
    'seasons/2026/samples.yaml': '- { date: 2026-08-20, block: upper, berries: 20, brix: 14 }\n',
  }
  const gateOf = (style: string, brix: number) => {
    const files = {
      'blocks/upper.yaml': SITE['blocks/upper.yaml']!.replace(/targets: .*/, `style: ${style}`),
      'varieties/palava.yaml': SITE['varieties/palava.yaml']!.replace(/^targets: .*\n/m, ''),
      'seasons/2026/samples.yaml': `- { date: 2026-09-12, block: upper, berries: 200, brix: ${brix} }\n`,
    }
    return ready(upper(files, '2026-09-14')).data.blocks[0]!.gates.find(({ gate }) => gate === 'sugar')!
  }
  const todo = () =>
    ready(upper({}, '2026-09-14')).data.blocks[0]!.gates.find(({ gate }) => gate === 'sugar')!.todo!

  thumb(
    ['half of 24 Brix, % vol', () => from(24).roughAlcohol, 12],
    ['20 Brix 30 to 60 days from veraison', () => likely(20) >= 30 && likely(20) <= 60, true],
    ['22 Brix 30 to 60 days from veraison', () => likely(22) >= 30 && likely(22) <= 60, true],
    ['red is wanted at 22 to 24 Brix', () => /of 22-24/.test(gateOf('red', 22.5).detail), true],
    ['red of 21 Brix waits', () => gateOf('red', 21).state, 'wait'],
    ['red of 22.5 Brix passes', () => gateOf('red', 22.5).state, 'pass'],
    ['white is wanted at 20 to 21 Brix', () => /of 20-21/.test(gateOf('white', 20.5).detail), true],
    ['white of 19 Brix waits', () => gateOf('white', 19).state, 'wait'],
    ['white of 20.5 Brix passes', () => gateOf('white', 20.5).state, 'pass'],
    ['a first sample is asked for of some 20 berries', () => /\b20 berries\b/.test(todo()), true],
    [
      'a first sample of 20 berries is taken',
      () => ripeness(upper(first, '2026-08-21')).data.samples[0]!.berries,
      20,
    ],
    ['a first sample of 20 berries is no slip', () => findingsOf('unlikely-sample', first).length, 0],
  )
})

describe('Oechsle to sugar and alcohol', () => {
  const troost = 'Troost 1988, Technologie des Weines, page not known, from memory'
  const of = (oechsle: number) => sugar({ reading: { scale: 'oechsle', value: oechsle } }, '2026-09-14').data
  const table = [
    [50, 103, 6.08],
    [60, 130, 7.65],
    [70, 156, 9.22],
    [80, 183, 10.79],
  ] as const
  published(
    rows(
      troost,
      'memory',
      table.flatMap(([oechsle, grams, alcohol]) => [
        // Printed to two decimals.
        [
          `% vol at ${oechsle} Oechsle by the German line`,
          () => of(oechsle).alcoholMethods['oechsle-line']!,
          alcohol,
          0.0051,
        ],
        // From 15 Brix (61 Oechsle) on the report gives sugar by the line of the OIV table, which lies up to 3 g/L higher.
        [`g/L at ${oechsle} Oechsle`, () => of(oechsle).sugarPerLitre!.value, grams, oechsle <= 60 ? 0.5 : 3],
      ]),
    ),
  )
})
