import fc from 'fast-check'
import { expect, test } from 'vitest'
import { coverOn } from '../../../src/facts/protection/parts.ts'
import { sprayCover } from '../../../src/facts/protection/sprays.ts'
import { copperOf } from '../../../src/facts/spraying/copper.ts'
import { label } from '../../rules/limits/both-sides.ts'
import { applied } from '../book.ts'

const COPPER = {
  use: 'rate: 1-3 kg/ha, interval: 7-14 d',
  actives: '{ name: copper hydroxide, content: 500 g/kg, group: M01 }',
  more: 'protects: 10 d\n',
}

/** A spot spray of the block `upper`, 0.4 ha in 20 rows with 2000 vines. */
const spot = (extent: string, dose: string) =>
  applied([`product: extra, ${dose}`], `method: spot, water: 3 L${extent}`, 'upper', {
    'products/extra.yaml': label(COPPER),
  })[0]!

const FROM = {
  disease: 'powdery',
  stages: [],
  periods: [],
  rainUntil: 0,
  indexOn: () => null,
  isGrave: () => false,
} as const

/** Share of the block that counts as protected on the day of the spray and the days after it. */
const protectedShare = (one: ReturnType<typeof spot>, date: string) =>
  coverOn(date, [sprayCover(one, FROM)], { rows: one.block.rows ?? null })

const extents = fc.oneof(
  fc.integer({ min: 1, max: 1990 }).map((vines) => ({ text: `, vines: ${vines}`, share: vines / 2000 })),
  fc.integer({ min: 1, max: 99 }).map((share) => ({ text: `, share: ${share} %`, share: share / 100 })),
  fc
    .tuple(fc.integer({ min: 1, max: 20 }), fc.integer({ min: 0, max: 18 }))
    .filter(([from, more]) => from + more <= 20 && more < 19)
    .map(([from, more]) => ({ text: `, rows: ${from}-${from + more}`, share: (more + 1) / 20 })),
)
const doses = fc.constantFrom('rate: 2 kg/ha', 'concentration: 8 g/L', 'amount: 24 g')

test('a spot spray never adds more protection than its treated share, and never protects the block', () =>
  fc.assert(
    fc.property(extents, doses, fc.integer({ min: 10, max: 30 }), ({ text, share }, dose, day) => {
      const one = spot(text, dose)
      expect(one.share).toBeCloseTo(share, 9)
      const state = protectedShare(one, `2026-06-${day}`)
      expect(state.covered).not.toBe(true)
      expect(state.share ?? 0).toBeLessThanOrEqual(share + 1e-9)
    }),
    { numRuns: 60 },
  ))

test('nor more copper than its share of the same dose on the whole block', () =>
  fc.assert(
    fc.property(extents, ({ text, share }) => {
      const whole = copperOf(spot(', share: 100 %', 'rate: 2 kg/ha'))!
      expect(copperOf(spot(text, 'rate: 2 kg/ha'))!).toBeLessThanOrEqual(whole * share + 1e-12)
    }),
    { numRuns: 60 },
  ))

test('a spot spray without its extent gives no certain protection', () => {
  const state = protectedShare(spot('', 'concentration: 8 g/L'), '2026-06-12')
  expect(state.covered).not.toBe(true)
  expect(state.share ?? 0).toBe(0)
})
