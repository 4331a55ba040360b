import { expect, test } from 'vitest'
import { ACID_FAMILIES, simulateAcid } from './acid.ts'
import { LEADS, over, simulate } from './run.ts'
import { summaryOf } from './score.ts'

/** A short run of what `npm run skill` prints; its goals are those of many more seasons, loosened by chance. */
const outcomes = simulate({ seasons: 8, seed: 20260914, distances: LEADS })

test('nearly every window is told, and holds the day about nine times in ten', () => {
  for (const way of ['samples', 'all of them'])
    for (const distance of LEADS) {
      const { told, held } = over(outcomes, { way, distances: [distance] })
      expect(told, `${way}, ${distance}`).toBeGreaterThanOrEqual(0.97)
      expect(held, `${way}, ${distance}`).toBeGreaterThanOrEqual(0.86)
    }
})

test('windows are no wider than is needed', () => {
  const widths = LEADS.map((distance) => over(outcomes, { way: 'samples', distances: [distance] }).width)
  ;[36, 33, 26, 18].forEach((most, at) => {
    expect(widths[at]).toBeLessThanOrEqual(most)
  })
  expect(over(outcomes, { way: 'samples', distances: LEADS }).score).toBeLessThanOrEqual(33)
})

/** What is known, and the same with something more known. */
const MORE = [
  ['berries not written', 'samples'],
  ['samples', '+ flowering'],
  ['samples', '+ veraison'],
  ['samples', '+ weather'],
  ['+ weather', '+ weather, forecast'],
  ['samples', '+ past seasons'],
  ['samples', 'all of them'],
] as const

/** Change of the mean score by knowing more, and its standard error; windows of one season count as one. */
function changeOf(less: string, more: string): { mean: number; error: number } {
  const [before, after] = [less, more].map((way) => outcomes.filter((outcome) => outcome.way === way))
  const key = (outcome: { family: string; distance: string }) => `${outcome.family} ${outcome.distance}`
  const seasons = new Map<number, number[]>()
  for (const [at, { scored, ...outcome }] of before!.entries()) {
    const then = after![at]!
    expect(key(then)).toBe(key(outcome))
    const season = Math.floor(at / LEADS.length)
    // Only windows that are told without it too, since it also tells harder ones.
    if (scored.told && then.scored.told)
      seasons.set(season, [...(seasons.get(season) ?? []), then.scored.score - scored.score])
  }
  const meanOf = (all: readonly number[]) => all.reduce((sum, one) => sum + one, 0) / all.length
  const changes = [...seasons.values()].map(meanOf)
  const mean = meanOf(changes)
  const variance = meanOf(changes.map((one) => (one - mean) ** 2))
  return { mean, error: Math.sqrt(variance / (changes.length - 1)) }
}

test.each(MORE)('from %s to %s: knowing more never makes the mean score worse', (less, more) => {
  const { mean, error } = changeOf(less, more)
  // Beyond chance: two standard errors, and a tenth of a day.
  expect(mean).toBeLessThanOrEqual(0.1 + 2 * error)
})

test('past seasons make the score better beyond chance', () => {
  const { mean, error } = changeOf('samples', '+ past seasons')
  expect(mean + 2 * error).toBeLessThan(-1)
})

test('acid and pH come into their range about as often as is told', () => {
  for (const lead of [14, 7]) {
    const all = ACID_FAMILIES.flatMap((family) => simulateAcid(family, { seasons: 15, lead, seed: 20260914 }))
    const { told, held, score } = summaryOf(all)
    expect(told).toBeGreaterThanOrEqual(0.9)
    expect(held).toBeGreaterThanOrEqual(0.86)
    expect(score).toBeLessThanOrEqual(40)
  }
})
