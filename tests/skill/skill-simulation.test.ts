import { expect, test } from 'vitest'
import { ACID_FAMILIES, simulateAcid } from './acid.ts'
import { LEADS, over, simulate } from './run.ts'
import { summaryOf } from './score.ts'

/** A short run of what `npm run skill` prints; its goals are those of many more seasons, loosened by chance. */
const outcomes = simulate({ seasons: 8, seed: 20260914, distances: LEADS })

test('nearly every window is told, and holds the day about nine times in ten', () => {
  for (const distance of LEADS) {
    const { told, held } = over(outcomes, { way: 'all of them', distances: [distance] })
    expect(told, distance).toBeGreaterThanOrEqual(0.97)
    expect(held, distance).toBeGreaterThanOrEqual(0.86)
  }
})

test('windows are no wider than is needed', () => {
  const widths = LEADS.map((distance) => over(outcomes, { way: 'samples', distances: [distance] }).width)
  ;[36, 33, 26, 18].forEach((most, at) => {
    expect(widths[at]).toBeLessThanOrEqual(most)
  })
  expect(over(outcomes, { way: 'samples', distances: LEADS }).score).toBeLessThanOrEqual(33)
})

test.each(['+ veraison', '+ weather', '+ past seasons', 'all of them'])(
  '%s: knowing it never makes the mean score worse',
  (way) => {
    // Only windows that are told without it too, since it also tells harder ones.
    const key = (outcome: (typeof outcomes)[number]) => `${outcome.family} ${outcome.distance}`
    const of = (name: string) => outcomes.filter((outcome) => outcome.way === name)
    const plain = of('samples')
    const more = of(way)
    const pairs = plain.flatMap((outcome, at) => {
      expect(key(more[at]!)).toBe(key(outcome))
      return outcome.scored.told && more[at]!.scored.told
        ? [more[at]!.scored.score - outcome.scored.score]
        : []
    })
    const mean = pairs.reduce((sum, one) => sum + one, 0) / pairs.length
    const spread = Math.sqrt(pairs.reduce((sum, one) => sum + (one - mean) ** 2, 0) / pairs.length)
    // Beyond chance: two standard errors, and a tenth of a day.
    expect(mean).toBeLessThanOrEqual(0.1 + (2 * spread) / Math.sqrt(pairs.length))
  },
)

test('acid and pH come into their range about as often as is told', () => {
  for (const lead of [14, 7]) {
    const all = ACID_FAMILIES.flatMap((family) => simulateAcid(family, { seasons: 15, lead, seed: 20260914 }))
    const { told, held, score } = summaryOf(all)
    expect(told).toBeGreaterThanOrEqual(0.9)
    expect(held).toBeGreaterThanOrEqual(0.86)
    expect(score).toBeLessThanOrEqual(40)
  }
})
