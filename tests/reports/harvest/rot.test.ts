import { expect, test } from 'vitest'
import type { ReportInput } from '../../../src/facts/report.ts'
import { openLedger } from '../../../src/ledger/read/open.ts'
import { harvest } from '../../../src/reports/harvest/report.ts'
import { makeLedger } from '../../ledger/make.ts'

const S = 'seasons/2026'
const walk = (date: string, block: string, found: string) =>
  `- { date: ${date}, block: ${block}, looked_at: { bunches: 100 }, found: { botrytis: { ${found} } } }\n`

/** The order of picking where the block Lower is riper, and Upper has rot that rises. */
const planned = (more: Record<string, string> = {}) => harvest(inputOf(more)).data

function inputOf(more: Record<string, string>): ReportInput {
  const count = (block: string) =>
    `- { date: 2026-09-05, block: ${block}, bunches_per_vine: [28, 28, 28], bunch_weight: [100 g, 100 g], at: harvest }\n`
  const files = {
    [`${S}/crop.yaml`]: count('upper') + count('lower'),
    [`${S}/samples.yaml`]:
      '- { date: 2026-09-12, block: upper, berries: 100, brix: 19.4 }\n- { date: 2026-09-12, block: lower, berries: 100, brix: 20.8 }\n',
    [`${S}/scouting.yaml`]:
      walk('2026-09-05', 'upper', 'bunches: 4, severity: 0.5 %') +
      walk('2026-09-12', 'upper', 'bunches: 15, severity: 2 %') +
      walk('2026-09-12', 'lower', 'bunches: 0'),
    ...more,
  }
  const ledger = openLedger(makeLedger(files), { seasons: 'all' })
  const blocks = [...ledger.blocks.values()]
  return { ledger, season: 2026, asOf: '2026-09-14', blocks }
}

test('a block in which rot argues for picking now comes first, today, as in ready', () => {
  const { blocks, day } = planned()
  expect(blocks.map(({ block }) => block)).toEqual(['upper', 'lower'])
  expect(blocks[0]!.rot).toBe(
    'botrytis rises from 4 % of bunches on 5 Sep to 15 % on 12 Sep (0.5 % to 2 % of the surface)',
  )
  expect(day!.steps[0]).toMatchObject({ block: 'upper', date: '2026-09-14' })
})

test('rot that spreads in the same bunches is said to rise by the surface', () => {
  const walks = [
    walk('2026-09-05', 'upper', 'bunches: 15, severity: 0.5 %'),
    walk('2026-09-12', 'upper', 'bunches: 14, severity: 2 %'),
  ]
  expect(planned({ [`${S}/scouting.yaml`]: walks.join('') }).blocks[0]!.rot).toBe(
    'botrytis rises from 0.5 % of the surface on 5 Sep to 2 % on 12 Sep (15 % to 14 % of bunches)',
  )
})

test('not where picking is only to be weighed, far from the target', () => {
  const samples =
    '- { date: 2026-09-12, block: upper, berries: 100, brix: 18.6 }\n- { date: 2026-09-12, block: lower, berries: 100, brix: 20.8 }\n'
  const { blocks } = planned({ [`${S}/samples.yaml`]: samples })
  expect(blocks.map(({ block, rot }) => [block, rot])).toEqual([
    ['lower', null],
    ['upper', null],
  ])
})

test('not where a spray does not allow it yet', () => {
  const spray =
    '- { date: 2026-09-10, time: 18:00-19:00, blocks: [upper], water: 300 L/ha, products: [ { product: sulphur, rate: 3 kg/ha, for: powdery } ] }\n'
  const { blocks } = planned({ [`${S}/sprays.yaml`]: spray })
  expect(blocks.map(({ block, rot }) => [block, rot])).toEqual([
    ['lower', null],
    ['upper', null],
  ])
})

test('a block that is picked on a day asked for before it is likely ripe is named with its day; one with rot is not', () => {
  const samples =
    '- { date: 2026-09-12, block: upper, berries: 100, brix: 19.4 }\n- { date: 2026-09-12, block: lower, berries: 100, brix: 15.0 }\n'
  const on = (date: '2026-09-15' | '2026-12-20') =>
    harvest(inputOf({ [`${S}/samples.yaml`]: samples }), { date }).data.day!
  const early = on('2026-09-15')
  expect(early.steps.map(({ block }) => block)).toEqual(['upper', 'lower'])
  expect(early.early.map(({ block }) => block)).toEqual(['lower'])
  expect(early.early[0]!.likely! > '2026-09-15').toBe(true)
  expect(on('2026-12-20').early).toEqual([])
})
