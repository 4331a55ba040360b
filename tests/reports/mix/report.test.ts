import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { diluteFromRowVolume } from '../../../src/agronomy/spraying/canopy.ts'
import type { Named } from '../../../src/ledger/read/ledger.ts'
import type { Block } from '../../../src/records/kinds/block.ts'
import { type Quantity, readQuantity } from '../../../src/records/quantity.ts'
import { CONCENTRATION_UNITS, convert, RATE_UNITS } from '../../../src/records/units.ts'
import { canopyOf, type MixJob } from '../../../src/reports/mix/job.ts'
import { mix } from '../../../src/reports/mix/report.ts'

const dataOf = (job: MixJob) => mix(job, { asOf: '2026-06-14', season: null, units: 'metric' }).data
const near = (got: number, want: number, within = 1e-9) =>
  expect(Math.abs(got - want)).toBeLessThanOrEqual(within * Math.max(Math.abs(want), 1e-300))

const figure = (min: number, max: number) => fc.double({ min, max, noNaN: true })

/** Every form in which a label gives a dose, and what of it comes to a hectare. */
const FORMS = ['kg/ha', 'L/ha', 'kg/ha leaf wall', 'L/ha leaf wall', 'g/L', 'mL/L', '%', 'kg', 'L'] as const

interface Drawn {
  blocks: { area: number; rowSpacing: number; height: number; width: number }[]
  waterPerHa: number
  tank: number
  even: boolean
  inTankShare: number
  dilute: 'none' | 'typed' | 'canopy'
  dose: number
  unit: (typeof FORMS)[number]
}

const drawn: fc.Arbitrary<Drawn> = fc
  .record({
    blocks: fc.array(
      fc.record({
        area: figure(0.001, 20),
        rowSpacing: figure(1, 4),
        height: figure(0.4, 2.5),
        width: figure(0.1, 0.9),
      }),
      { minLength: 1, maxLength: 4 },
    ),
    waterPerHa: figure(20, 3000),
    tank: figure(5, 4000),
    even: fc.boolean(),
    inTankShare: figure(0, 1),
    dilute: fc.constantFrom('none' as const, 'typed' as const, 'canopy' as const),
    dose: figure(0, 100),
    unit: fc.constantFrom(...FORMS),
  })
  .filter(({ blocks, waterPerHa, tank }) => (areaOf(blocks) * waterPerHa) / tank < 4000)

const areaOf = (blocks: Drawn['blocks']) => blocks.reduce((sum, { area }) => sum + area, 0)

function jobOf({ blocks, waterPerHa, tank, even, inTankShare, dilute, dose, unit }: Drawn): MixJob {
  const canopy = canopyOf(
    {},
    blocks.map(({ area, rowSpacing, height, width }) => ({
      area,
      block: { row_spacing: rowSpacing, canopy: { height, width } } as Named<Block>,
    })),
  )
  const dilutePerHa =
    dilute === 'none'
      ? undefined
      : dilute === 'typed'
        ? waterPerHa * 2.5
        : diluteFromRowVolume({ rowVolumePerHa: canopy.rowVolumePerHa!, litresPerCubicMetre: 0.2 })
  return {
    area: areaOf(blocks),
    waterPerHa,
    waterBy: 'typed',
    tank,
    even,
    inTank: tank * inTankShare,
    dilutePerHa,
    leafWallPerHa: canopy.leafWallPerHa,
    means: canopy.means,
    parts: [{ id: 'a', product: null, dose: { value: dose, unit } }],
  }
}

/** What the dose comes to on the blocks, block by block and by the words of the label. */
function totalOf({ blocks, waterPerHa, dilute, dose, unit }: Drawn, job: MixJob): number {
  if (unit === 'kg' || unit === 'L') return dose
  const perVolume = unit === '%' ? dose * 10 : dose
  return blocks.reduce((sum, { area, rowSpacing, height }) => {
    if (unit.endsWith('leaf wall')) return sum + area * dose * ((2 * height) / rowSpacing)
    if (unit === 'kg/ha' || unit === 'L/ha') return sum + area * dose
    return sum + (area * (dilute === 'none' ? waterPerHa : job.dilutePerHa!) * perVolume) / 1000
  }, 0)
}

describe('whatever is typed, in every form of dose', () => {
  test('the total is that of the blocks one by one', () => {
    fc.assert(
      fc.property(drawn, (one) => {
        const job = jobOf(one)
        near(dataOf(job).products[0]!.total!.value, totalOf(one, job))
      }),
    )
  })

  test('the fills hold the total and the water, and nothing is negative or not finite', () => {
    fc.assert(
      fc.property(drawn, (one) => {
        const { products, fills, toAdd, water, fullTanks, lastTank, tooMuch } = dataOf(jobOf(one))
        const { total, rate, concentration, perFullTank, perLastTank, perFill } = products[0]!
        near(
          perFill!.reduce((sum, { value }) => sum + value, 0),
          total!.value,
        )
        near(
          fills!.reduce((sum, { value }) => sum + value, 0),
          water.value,
        )
        const all = [
          total!,
          rate!,
          concentration,
          perFullTank!,
          perLastTank!,
          ...perFill!,
          ...fills!,
          ...toAdd!,
        ]
        for (const { value } of [...all, lastTank!, ...(tooMuch ? [tooMuch] : [])]) {
          expect(Number.isFinite(value)).toBe(true)
          expect(value).toBeGreaterThanOrEqual(0)
        }
        for (const { value } of fills!) expect(value).toBeLessThanOrEqual(one.tank * (1 + 1e-9))
        if (!one.even) near(fullTanks! * one.tank + lastTank!.value, water.value, 1e-8)
        else if (fullTanks === 0) for (const { value } of fills!) near(value, fills![0]!.value)
        // What stands in the tank and what is added are the first fill, unless more stands there than it holds.
        const inTank = one.tank * one.inTankShare
        near(toAdd![0]!.value + inTank, Math.max(fills![0]!.value, inTank))
      }),
    )
  })

  test('each fill holds product in proportion to its spray', () => {
    fc.assert(
      fc.property(drawn, (one) => {
        const { products, fills } = dataOf(jobOf(one))
        const { perFill, concentration } = products[0]!
        for (const [index, { value }] of perFill!.entries())
          near(value, (fills![index]!.value * concentration.value) / 1000, 1e-7)
      }),
    )
  })

  test('twice the area takes twice the product and the water, at the same rate', () => {
    fc.assert(
      fc.property(
        drawn.filter(({ unit }) => unit !== 'kg' && unit !== 'L'),
        (one) => {
          const once = dataOf({ ...jobOf(one), tank: null, inTank: 0 })
          const blocks = one.blocks.map((block) => ({ ...block, area: block.area * 2 }))
          const twice = dataOf({ ...jobOf({ ...one, blocks }), tank: null, inTank: 0 })
          near(twice.products[0]!.total!.value, 2 * once.products[0]!.total!.value)
          near(twice.water.value, 2 * once.water.value)
          near(twice.products[0]!.rate!.value, once.products[0]!.rate!.value)
        },
      ),
    )
  })

  test('a dose for the dilute volume is the same for the hectare, whatever is applied', () => {
    fc.assert(
      fc.property(drawn, figure(20, 3000), (one, otherWater) => {
        const job = { ...jobOf({ ...one, unit: 'g/L', dilute: 'typed' }), tank: null, inTank: 0 }
        const [first, second] = [job, { ...job, waterPerHa: otherWater }].map(
          (each) => dataOf(each).products[0]!,
        )
        near(second!.total!.value, first!.total!.value)
        near(second!.concentration.value * otherWater, first!.concentration.value * job.waterPerHa!)
      }),
    )
  })

  test('rounding for a scale is off by half a step a fill at most', () => {
    fc.assert(
      fc.property(drawn, fc.constantFrom(0.001, 0.005, 0.01, 0.1), (one, step) => {
        const [product] = dataOf({ ...jobOf(one), step: { kg: step, L: step } }).products
        const { rounded, perFill } = product!
        for (const [index, amount] of rounded!.perFill.entries()) {
          if (amount === null) continue
          expect(Math.abs(amount.value - perFill![index]!.value)).toBeLessThanOrEqual(step / 2 + 1e-9)
          near(Math.round(amount.value / step) * step, amount.value, 1e-7)
        }
      }),
    )
  })
})

describe('one job typed in metric, US and imperial units', () => {
  const SYSTEMS = {
    metric: {
      area: 'm2',
      water: 'L/ha',
      tank: 'L',
      mass: 'g/ha',
      volume: 'mL/ha',
      in: 'g/hL',
      wall: 'kg/10000 m2 leaf wall',
    },
    us: {
      area: 'acre',
      water: 'US gal/acre',
      tank: 'US gal',
      mass: 'lb/acre',
      volume: 'US fl oz/acre',
      in: 'lb/US gal',
      wall: 'lb/43560 ft2 leaf wall',
    },
    imperial: {
      area: 'acre',
      water: 'imp gal/acre',
      tank: 'imp gal',
      mass: 'oz/acre',
      volume: 'imp pt/acre',
      in: 'oz/imp gal',
      wall: 'oz/1000 ft2 leaf wall',
    },
  } as const

  /** A figure as it is typed in a unit, read back as the program reads an option. */
  const typed = (value: number, unit: string, accepts: readonly string[]): Quantity => {
    const read = readQuantity(`${value.toFixed(14)} ${unit}`, accepts)
    if (read.fault) throw new Error(read.fault.message)
    return { value: read.range.low, unit: read.range.unit }
  }
  const DOSES = [
    { own: 'kg/ha', key: 'mass' },
    { own: 'L/ha', key: 'volume' },
    { own: 'g/L', key: 'in' },
    { own: 'kg/ha leaf wall', key: 'wall' },
  ] as const

  test('agree to 1e-9', () => {
    const jobs = fc.record({
      area: figure(0.05, 20),
      water: figure(50, 2000),
      tank: figure(50, 2000),
      dose: figure(0.5, 60),
      form: fc.constantFrom(...DOSES),
      even: fc.boolean(),
    })
    fc.assert(
      fc.property(jobs, ({ area, water, tank, dose, form, even }) => {
        // A volume that fills the tanks to the brim may lack or have a drop, which is a fill of its own or none.
        const fills = (area * water) / tank
        fc.pre(fills < 4000 && Math.abs(fills - Math.round(fills)) > 1e-6)
        const [metric, us, imperial] = Object.values(SYSTEMS).map((system) => {
          const as = (value: number, own: string, unit: string, accepts: readonly string[] = [own]) =>
            typed(convert(value, own, unit), unit, accepts)
          const job: MixJob = {
            area: as(area, 'ha', system.area).value,
            waterPerHa: as(water, 'L/ha', system.water).value,
            waterBy: 'typed',
            tank: as(tank, 'L', system.tank).value,
            even,
            inTank: 0,
            means: [],
            leafWallPerHa: 12_000,
            parts: [
              {
                id: 'a',
                product: null,
                dose: as(dose, form.own, system[form.key], [...RATE_UNITS, ...CONCENTRATION_UNITS]),
              },
            ],
          }
          return dataOf(job)
        })
        for (const other of [us!, imperial!]) {
          near(other.area!.value, metric!.area!.value)
          near(other.water.value, metric!.water.value)
          expect(other.fullTanks).toBe(metric!.fullTanks)
          expect(Math.abs(other.lastTank!.value - metric!.lastTank!.value)).toBeLessThan(
            1e-9 * metric!.water.value,
          )
          const [mine, theirs] = [metric!.products[0]!, other.products[0]!]
          expect(theirs.total!.unit).toBe(mine.total!.unit)
          near(theirs.total!.value, mine.total!.value)
          near(theirs.rate!.value, mine.rate!.value)
          near(theirs.concentration.value, mine.concentration.value)
          near(theirs.perFullTank!.value, mine.perFullTank!.value)
        }
      }),
    )
  })
})
