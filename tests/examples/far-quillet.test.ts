import { readdirSync, readFileSync } from 'node:fs'
import { join } from 'node:path'
import { fileURLToPath } from 'node:url'
import { describe, expect, it } from 'vitest'
import { powderyIndex } from '../../src/agronomy/disease/powdery-index.ts'
import { weatherOf } from '../../src/facts/weather/hours.ts'
import { openLedger } from '../../src/ledger/read/open.ts'
import { dayOf } from '../../src/records/date.ts'
import { SEASON_KINDS } from '../../src/records/kinds.ts'
import { check } from '../../src/reports/check/report.ts'
import { ellipsoidArea } from '../ellipsoid-area.ts'

const root = fileURLToPath(new URL('../../examples/far-quillet', import.meta.url))
const ledger = openLedger(root, { seasons: 'all' })
const files = readdirSync(root, { recursive: true, encoding: 'utf8' })

const mean = (values: readonly number[]) => values.reduce((sum, value) => sum + value, 0) / values.length

describe('the example ledger', () => {
  it('has neither error nor warning, as of 14 September 2026', () => {
    const { all } = check({ ledger, asOf: '2026-09-14' }, new Set([2024, 2025, 2026]))
    expect(all.filter(({ level }) => level !== 'hint')).toEqual([])
  })

  it('says in the first line of every file that it is invented', () => {
    const written = files.filter((file) => /\.(yaml|csv)$/.test(file))
    expect(written.length).toBeGreaterThan(150)
    const silent = written.filter(
      (file) => !/^# invented example/.test(readFileSync(join(root, file), 'utf8')),
    )
    expect(silent).toEqual([])
  })

  it('holds nothing after 13 September 2026', () => {
    const dates = SEASON_KINDS.flatMap((kind) => ledger[kind].map(({ date }) => date))
    expect(dates.filter((date) => date > '2026-09-13')).toEqual([])
  })

  it('has an outline of Top Terrace that agrees with its rows within 1 %', () => {
    const { geometry } = JSON.parse(readFileSync(join(root, 'blocks/top-terrace.geojson'), 'utf8'))
    const area = ellipsoidArea(geometry.coordinates)
    const { rows, row_length, row_spacing } = ledger.blocks.get('top-terrace')!
    expect(Math.abs(area / ((rows! * row_length! * row_spacing) / 10_000) - 1)).toBeLessThan(0.01)
  })

  it('lets powdery pressure rise while Brook Rows has nothing on it', () => {
    const { hours } = weatherOf(ledger, 2026)
    const days = powderyIndex(hours, dayOf('2026-04-10'))
    const indexOn = (date: string) => days.find(({ day }) => day === dayOf(date))!.index
    expect(Math.max(...days.filter(({ day }) => day <= dayOf('2026-06-13')).map(({ index }) => index))).toBe(
      0,
    )
    expect(indexOn('2026-06-20')).toBe(100)
    expect(indexOn('2026-07-01')).toBe(100)
    const sprayed = ledger.sprays
      .filter(({ season, blocks }) => season === 2026 && blocks.includes('brook-rows'))
      .map(({ date }) => date)
    expect(sprayed.filter((date) => date > '2026-06-04').sort()[0]).toBe('2026-06-27')
    const powdery = ledger.scouting
      .filter(({ block, season }) => block === 'brook-rows' && season === 2026)
      .map(({ date, found }) => [date, found.powdery?.bunches ?? found.powdery?.leaves])
    expect(powdery.slice(0, 3)).toEqual([
      ['2026-06-10', 0],
      ['2026-06-26', 12],
      ['2026-07-09', 4],
    ])
  })

  it('has by mid-September one block at its sugar, one below, one held by a spray, one far off', () => {
    const brix = (block: string) =>
      mean(ledger.samples.filter((one) => one.block === block && one.season === 2026).at(-1)!.brix!)
    expect(brix('top-terrace')).toBeGreaterThan(20.5)
    expect(brix('brook-rows')).toBeCloseTo(18.9, 1)
    expect(brix('kiln-bank')).toBeGreaterThan(20.5)
    expect(brix('gate-field')).toBeLessThan(18)
    const legalFrom = (block: string) => {
      const sprays = ledger.sprays.filter((one) => one.season === 2026 && one.blocks.includes(block))
      return Math.max(
        ...sprays.flatMap(({ date, products }) =>
          products.map(({ product }) => dayOf(date) + ledger.products.get(product)!.before_harvest!),
        ),
      )
    }
    expect(legalFrom('kiln-bank')).toBe(dayOf('2026-10-02'))
    for (const block of ['top-terrace', 'brook-rows', 'gate-field'])
      expect(legalFrom(block)).toBeLessThan(dayOf('2026-09-14'))
  })
})
