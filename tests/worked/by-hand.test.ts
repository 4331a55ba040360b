import { describe, expect, test } from 'vitest'
import { harvestPlan } from '../../src/agronomy/crop/harvest-plan.ts'
import { amountsPerFill, fillTanks } from '../../src/agronomy/spraying/tank.ts'
import { vinesOf } from '../../src/facts/block-size.ts'
import { convert } from '../../src/records/units.ts'
import { ledgerOf } from '../ledger/in-memory.ts'
import { answer, type Data } from './answer.ts'

// Sums worked by hand. They hold the arithmetic and its units, and are no check from outside: those with a source
// stand in tests/published.

const inUnit = ({ value, unit }: { value: number; unit: string }, wanted: string) =>
  convert(value, unit, wanted)

describe('calibrate', () => {
  test('8 nozzles of 1 L/min over 100 m in 60 s, rows of 2 m', async () => {
    const data = await answer('calibrate', {
      nozzle: new Array<string>(8).fill('1.0 L/min'),
      distance: '100 m',
      seconds: '60',
      width: '2 m',
      wanted: '400 L/ha',
    })
    expect(data).toMatchObject({ speed: { value: 6 }, volumePerHa: { value: 400 } })
    expect(data.wanted).toMatchObject({ ok: true, perNozzle: { value: 1 } })
  })

  test('five nozzles against their mean', async () => {
    const nozzle = ['1.00 L/min', '0.98 L/min', '1.02 L/min', '1.15 L/min', '0.85 L/min']
    const data = await answer('calibrate', { nozzle, speed: '5 km/h', width: '2 m' })
    expect(data.nozzleMean.value).toBeCloseTo(1, 12)
    const off = data.nozzles.map(({ deviation }: Data) => Number(deviation.toFixed(9)))
    expect(off).toEqual([0, -0.02, 0.02, 0.15, -0.15])
    expect(data.nozzles.map(({ ok }: Data) => ok)).toEqual([true, true, true, false, false])
  })

  test('twice the flow takes four times the pressure', async () => {
    const law = { flow: '1.1 L/min', speed: '6 km/h', width: '1 m', pressure: '3 bar', wanted: '220 L/ha' }
    expect((await answer('calibrate', law)).wanted.pressureNeeded.value).toBeCloseTo(12, 9)
  })

  test('3 L on a plot of 10 x 10 m are 300 L/ha', async () => {
    const data = await answer('calibrate', { caught: '3 L', plot: '100 m2' })
    expect(data.volumePerHa.value).toBeCloseTo(300, 9)
  })
})

describe('mix', () => {
  const job = { area: '2.4 ha', water: '400 L/ha', tank: '300 L', dose: 'a=1.5 kg/ha' }

  test('2.4 ha at 400 L/ha from a tank of 300 L', async () => {
    const data = await answer('mix', job)
    expect(data).toMatchObject({ water: { value: 960 }, fullTanks: 3, lastTank: { value: 60 } })
    const [{ perFullTank, perLastTank, total }] = data.products
    expect([perFullTank, perLastTank, total].map(({ value }: Data) => Number(value.toFixed(9)))).toEqual([
      1.125, 0.225, 3.6,
    ])
  })

  test('the same in four equal fills', async () => {
    const data = await answer('mix', { ...job, even: true })
    expect(data.fills.map(({ value }: Data) => value)).toEqual([240, 240, 240, 240])
    expect(data.products[0].perLastTank.value).toBeCloseTo(0.9, 12)
  })

  test('the same by the functions under the report', () => {
    const { fullTanks, lastTank, fills } = fillTanks({ volume: 2.4 * 400, tank: 300 })
    expect([fullTanks, lastTank]).toEqual([3, 60])
    const shares = amountsPerFill(1.5 * 2.4, fills)
    expect(shares.map((share) => Number(share.toFixed(9)))).toEqual([1.125, 1.125, 1.125, 0.225])
  })

  test('0.18 ha at 600 L/ha from a knapsack of 16 L, 12 g in a litre', async () => {
    const data = await answer('mix', { area: '0.18 ha', water: '600 L/ha', tank: '16 L', dose: 'a=12 g/L' })
    expect(data).toMatchObject({ fullTanks: 6, lastTank: { value: 12 } })
    expect(data.products[0].perFullTank.value).toBeCloseTo(0.192, 12)
    expect(data.products[0].total.value).toBeCloseTo(1.296, 12)
  })

  test('1.7 acres at 2.5 lb and 50 US gallons an acre', async () => {
    const data = await answer('mix', {
      area: '1.7 acre',
      water: '50 US gal/acre',
      tank: '100 US gal',
      dose: 'a=2.5 lb/acre',
    })
    expect(inUnit(data.products[0].total, 'lb')).toBeCloseTo(4.25, 9)
    expect(inUnit(data.water, 'US gal')).toBeCloseTo(85, 9)
  })
})

describe('harvest', () => {
  test('1666 kg at 50 kg an hour', () => {
    const certain = (value: number) => ({ low: value, likely: value, high: value })
    const day = harvestPlan({
      ...{ crop: certain(1666), rate: certain(50), hours: 8 },
      ...{ crate: 15, juicePerTonne: 650, pressLoad: 160 },
    })
    expect(day.personHours.likely).toBeCloseTo(33.32, 9)
    expect(day.juice.likely).toBeCloseTo(1082.9, 9)
    expect([day.crates, day.bottles, day.pressLoads!].map(({ likely }) => likely)).toEqual([112, 1443, 11])
  })
})

describe('a block', () => {
  test('0.5 ha at 2 x 1 m, 60 vines missing', () => {
    const text = 'name: U\nvariety: palava\narea: 0.5 ha\nrow_spacing: 2 m\nvine_spacing: 1 m\nmissing: 60\n'
    const block = ledgerOf({ 'blocks/upper.yaml': text }).blocks.get('upper')!
    expect(vinesOf(block)).toMatchObject({ planted: 2500, alive: 2440 })
  })
})
