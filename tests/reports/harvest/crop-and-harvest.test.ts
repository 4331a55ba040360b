import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { openLedger } from '../../../src/ledger/read/open.ts'
import { crop } from '../../../src/reports/crop/report.ts'
import { harvest } from '../../../src/reports/harvest/report.ts'
import { makeLedger } from '../../ledger/make.ts'

const S = 'seasons/2026'

function inputOf(files: Record<string, string | null>, asOf = '2026-09-14') {
  const ledger = openLedger(makeLedger(files), { seasons: 'all' })
  expect(ledger.findings.filter(({ level }) => level === 'error')).toEqual([])
  return {
    ledger,
    season: 2026,
    asOf,
    blocks: [...ledger.blocks.values()].sort((a, b) => (a.id < b.id ? 1 : -1)),
  }
}

const count = (block: string, at: string, weights = '[62 g, 62 g, 62 g]', bunches = '[28, 28, 28]') =>
  `- { date: 2026-08-05, block: ${block}, bunches_per_vine: ${bunches}, bunch_weight: ${weights}, at: ${at} }\n`

describe('crop', () => {
  test('0.25 ha, rows 2.4 m, vines 1.2 m, 4 % missing, 28 bunches, 62 g at lag: 2893 kg, worked out by hand', () => {
    const block =
      'name: Slope\nvariety: palava\narea: 0.25 ha\nrow_spacing: 2.4 m\nvine_spacing: 1.2 m\nmissing: 35\n'
    const input = inputOf({
      'blocks/upper.yaml': block,
      'blocks/lower.yaml': null,
      [`${S}/crop.yaml`]: count('upper', 'lag'),
    })
    const found = crop({ ...input, blocks: [input.ledger.blocks.get('upper')!] }).data.blocks[0]!
    // 833.33 vines there, 868 - 35 whole ones here
    expect(found.vines).toBe(833)
    expect(found.estimate!.value).toBeCloseTo(2893.3 * (833 / 833.333), 0)
    expect(found.bunchWeight).toEqual({ value: 0.062, unit: 'kg' })
    expect(found.growthFactor).toMatchObject({
      value: 2,
      basis: 'default',
      low: expect.closeTo(1.667, 3),
      high: 2.5,
    })
    expect(found.growthFactor!.source).toMatch(/Fiola/)
    expect(found.guess).toBe(true)
  })

  test("the block's own past comes before the default, and only earlier seasons", () => {
    const past = (year: number, grams: number, at: string) =>
      `- { date: ${year}-0${at === 'lag' ? 8 : 9}-05, block: upper, bunches_per_vine: [20, 22], bunch_weight: [${grams} g, ${grams} g], at: ${at} }\n`
    const files = {
      'seasons/2024/crop.yaml': past(2024, 50, 'lag') + past(2024, 110, 'harvest'),
      'seasons/2025/crop.yaml': past(2025, 50, 'lag') + past(2025, 90, 'harvest'),
      [`${S}/crop.yaml`]: count('upper', 'lag'),
    }
    const upper = crop(inputOf(files)).data.blocks.find(({ block }) => block === 'upper')!
    expect(upper.growthFactor).toMatchObject({ value: expect.closeTo(2, 9), basis: 'own', seasons: 2 })
  })

  test('weighed near harvest nothing is left to grow', () => {
    const upper = crop(inputOf({ [`${S}/crop.yaml`]: count('upper', 'lag') + count('upper', 'harvest') }))
      .data.blocks[0]!
    expect(upper.growthFactor).toMatchObject({ value: 1, basis: 'none-needed' })
  })

  test('what is missing is named, and no figure made up', () => {
    const lower = crop(
      inputOf({
        [`${S}/crop.yaml`]: '- { date: 2026-08-05, block: lower, bunches_per_vine: [20], at: lag }\n',
      }),
    ).data
    expect(lower.blocks.find(({ block }) => block === 'lower')).toMatchObject({
      estimate: null,
      missing: 'bunch weight',
    })
    expect(lower.total.estimate).toBeNull()
  })

  test('counted in parts, the parts add up', () => {
    const part = (name: string, vines: number, bunches: number) =>
      `- { date: 2026-09-05, block: upper, part: ${name}, vines: ${vines}, bunches_per_vine: [${bunches}, ${bunches}], bunch_weight: [100 g, 100 g], at: harvest }\n`
    const upper = crop(inputOf({ [`${S}/crop.yaml`]: part('top', 1000, 20) + part('foot', 900, 10) })).data
      .blocks[0]!
    expect(upper.estimate!.value).toBeCloseTo(1000 * 2 + 900 * 1, 6)
    expect(upper.parts.map(({ part }) => part)).toEqual(['top', 'foot'])
  })
})

describe('harvest', () => {
  const both =
    count('upper', 'harvest', '[98 g, 105 g, 91 g, 120 g]', '[18, 22, 19, 25, 21]') +
    count('lower', 'harvest', '[98 g, 105 g, 91 g]', '[18, 22, 19]')

  test('1666 kg: 33.32 person-hours, 112 crates, 1082.9 L, 1443 bottles, 11 loads, worked out by hand', () => {
    const site =
      'name: Test Rows\nlatitude: 51.5\ntimezone: Europe/Berlin\nharvest: { picking: 50 kg/h, crate: 15 kg, juice: 650 L/t, press: 160 kg, day: 8 h, bottle: 0.75 L }\n'
    const block = 'name: One\nvariety: palava\narea: 0.1666 ha\nrow_spacing: 1 m\nvine_spacing: 1 m\n'
    const input = inputOf({
      'vineyard.yaml': site,
      'blocks/upper.yaml': block,
      [`${S}/crop.yaml`]: count('upper', 'harvest', '[100 g, 100 g, 100 g]', '[10, 10, 10]'),
    })
    const { blocks } = harvest({ ...input, blocks: [input.ledger.blocks.get('upper')!] }, { people: 1 }).data
    expect(blocks[0]).toMatchObject({ crates: 112, bottles: 1443, pressLoads: 11, people: 5, missing: null })
    expect(blocks[0]!.crop!.value).toBeCloseTo(1666, 6)
    expect(blocks[0]!.personHours).toBeCloseTo(33.32, 6)
    expect(blocks[0]!.hours).toBeCloseTo(33.32, 6)
    expect(blocks[0]!.juice!.value).toBeCloseTo(1082.9, 1)
  })

  test("own picking rates come before the site's, and its own before the published", () => {
    const files = { [`${S}/crop.yaml`]: both }
    expect(harvest(inputOf(files)).data.blocks[0]!.rate).toMatchObject({
      value: 50,
      source: expect.stringMatching(/hortnews/),
    })
    const picks = '- { date: 2025-09-20, block: lower, weight: 1200 kg, people: 5, hours: 6 }\n'
    const learnt = harvest(inputOf({ ...files, 'seasons/2025/picks.yaml': picks })).data.blocks[0]!
    expect(learnt.rate.value).toBe(40)
  })

  test('after the day, rate and yield are held against the plan, which the day itself does not change', () => {
    const picks = '- { date: 2026-09-13, block: lower, weight: 500 kg, people: 2, hours: 5 }\n'
    const lower = harvest(inputOf({ [`${S}/crop.yaml`]: both, [`${S}/picks.yaml`]: picks })).data.blocks.find(
      ({ block }) => block === 'lower',
    )!
    expect(lower.rate.value).toBe(50)
    expect(lower.picked).toMatchObject({ date: '2026-09-13', weight: 500, rate: 50, rateAgainstPlan: 0 })
    expect(lower.picked!.againstPlan).toBeCloseTo(500 / lower.crop!.value - 1, 9)
  })

  test('given the pickers there are, it says how long they need, with low and high, for each block and in all', () => {
    const { blocks, totals } = harvest(inputOf({ [`${S}/crop.yaml`]: both }), { people: 4, hours: 6 }).data
    for (const { personHours, hours, range } of [...blocks, totals]) {
      expect(hours).toBeCloseTo(personHours! / 4, 9)
      expect(range.hours!.likely).toBeCloseTo(hours!, 9)
      expect(range.hours!.low! < hours! && hours! < range.hours!.high!).toBe(true)
    }
    expect(totals.hours).toBeCloseTo(
      blocks.reduce((sum, { hours }) => sum + hours!, 0),
      9,
    )
  })

  test('the plan that a picked block is held against knows no pick of that day or later', () => {
    const picks =
      '- { date: 2026-09-01, block: upper, weight: 800 kg, people: 2, hours: 10 }\n- { date: 2026-09-10, block: lower, weight: 500 kg, people: 2, hours: 5 }\n- { date: 2026-09-12, block: upper, weight: 900 kg, people: 1, hours: 10 }\n'
    const { blocks } = harvest(inputOf({ [`${S}/crop.yaml`]: both, [`${S}/picks.yaml`]: picks })).data
    const lower = blocks.find(({ block }) => block === 'lower')!
    expect(lower.rate).toMatchObject({ value: 40, source: expect.stringMatching(/^1 past pick/) })
    expect(lower.picked).toMatchObject({ rate: 50, rateAgainstPlan: expect.closeTo(0.25, 9) })
  })

  test('totals of blocks equal the vineyard, whatever the counts', () => {
    const counts = fc.array(fc.integer({ min: 1, max: 60 }), { minLength: 2, maxLength: 5 })
    fc.assert(
      fc.property(counts, counts, (upper, lower) => {
        const input = inputOf({
          [`${S}/crop.yaml`]:
            count('upper', 'lag', '[50 g, 55 g]', JSON.stringify(upper)) +
            count('lower', 'harvest', '[90 g, 110 g]', JSON.stringify(lower)),
        })
        const { blocks, totals } = harvest(input).data
        const sum = (of: (block: (typeof blocks)[number]) => number) =>
          blocks.reduce((total, block) => total + of(block), 0)
        expect(totals.crop!.value).toBeCloseTo(
          sum(({ crop }) => crop!.value),
          6,
        )
        expect(totals.juice!.value).toBeCloseTo(
          sum(({ juice }) => juice!.value),
          6,
        )
        expect(totals.personHours).toBeCloseTo(
          sum(({ personHours }) => personHours!),
          6,
        )
        expect(totals.crates).toBe(sum(({ crates }) => crates!))
        expect(crop(input).data.total.estimate!.value).toBeCloseTo(totals.crop!.value, 6)
      }),
      { numRuns: 20 },
    )
  })

  test('an unknown block leaves the total unknown, and is named', () => {
    const { totals } = harvest(inputOf({ [`${S}/crop.yaml`]: count('upper', 'lag') })).data
    expect(totals).toMatchObject({ crop: null, crates: null, missing: 'the crop of lower' })
  })
})
