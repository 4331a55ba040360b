import { describe, expect, test } from 'vitest'
import type { CoverDay } from '../../../src/facts/protection/day.ts'
import { earliestPick, latestSpray } from '../../../src/facts/spraying/spray-end.ts'
import { openLedger } from '../../../src/ledger/read/open.ts'
import { addDays } from '../../../src/records/date.ts'
import { harvestStop } from '../../../src/reports/cover/harvest-stop.ts'
import { makeLedger } from '../../ledger/make.ts'

const product = (name: string, days: string) =>
  `name: ${name}\nform: WG\nkind: fungicide\nactives: [ { name: ${name}, content: 800 g/kg } ]\nuses: [ { against: powdery, rate: 2-6 kg/ha } ]\n${days}`
const ledger = openLedger(
  makeLedger({
    'products/sulphur.yaml': product('sulphur', 'before_harvest: 21 d\n'),
    'products/quick.yaml': product('quick', 'before_harvest: 3 d\n'),
    'products/silent.yaml': product('silent', ''),
  }),
  { seasons: 'all' },
)
const open: Pick<CoverDay, 'covered' | 'daysLeft'> = { covered: false, daysLeft: 0 }
const stopOf = (asOf: string, window: { earliest: string | null; legalFrom?: string | null }, today = open) =>
  harvestStop(ledger, {
    window: { legalFrom: null, picked: null, why: null, ...window },
    disease: 'powdery',
    asOf,
    today,
  })

describe('the next spray before harvest', () => {
  test('the last day waits the whole days of a spray that ended at midnight', () => {
    expect(latestSpray('2026-09-25', 21)).toBe('2026-09-03')
    for (const days of [0, 1, 2.5, 21]) {
      const last = latestSpray('2026-09-25', days)
      expect(earliestPick({ date: last, time: undefined }, days).cautious <= '2026-09-25').toBe(true)
      const next = addDays(last, 1)
      expect(earliestPick({ date: next, time: undefined }, days).cautious <= '2026-09-25').toBe(false)
    }
  })
  test('says what is in time, until when, and what is not known', () => {
    expect(stopOf('2026-09-03', { earliest: '2026-09-25' })).toMatchObject({
      picking: '2026-09-25',
      nextDue: '2026-09-03',
      products: [
        { product: 'quick', lastDay: '2026-09-21' },
        { product: 'sulphur', lastDay: '2026-09-03' },
        { product: 'silent', lastDay: null },
      ],
      lastDay: '2026-09-21',
      inTime: ['quick', 'sulphur'],
    })
    expect(stopOf('2026-09-04', { earliest: '2026-09-25' }).inTime).toEqual(['quick'])
    expect(stopOf('2026-09-22', { earliest: '2026-09-25' }).inTime).toEqual([])
  })
  test('is due behind the cover that lasts, and picking waits for sprays made', () => {
    const covered = { covered: true, daysLeft: 4 }
    const stop = stopOf('2026-09-01', { earliest: '2026-09-25', legalFrom: '2026-09-28' }, covered)
    expect(stop).toMatchObject({ nextDue: '2026-09-06', picking: '2026-09-28' })
    expect(stop.inTime).toEqual(['quick', 'sulphur'])
    expect(stopOf('2026-09-30', { earliest: '2026-09-25' }).picking).toBe('2026-09-30')
  })
  test('without a window there is no date, and the reason', () => {
    const stop = harvestStop(ledger, {
      window: { earliest: null, legalFrom: null, picked: null, why: 'no samples' },
      disease: 'powdery',
      asOf: '2026-07-01',
      today: open,
    })
    expect(stop).toMatchObject({ picking: null, why: 'no samples', lastDay: null, inTime: [] })
  })
})
