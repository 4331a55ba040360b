import { expect, test } from 'vitest'
import { ascosporeInfection } from '../../src/agronomy/powdery-ascospores.ts'
import type { WetSpell } from '../../src/agronomy/wet-spells.ts'

const spell = (changes: Partial<WetSpell>): WetSpell => ({
  first: 10,
  last: 21,
  wetHours: 12,
  temperature: 15,
  rain: 2.5,
  running: false,
  complete: true,
  basis: 'wetness',
  ...changes,
})
const possible = (changes: Partial<WetSpell>) => ascosporeInfection(spell(changes)).possible

test('each limit on both sides', () => {
  expect(possible({})).toBe(true)
  expect([possible({ rain: 2.4 }), possible({ wetHours: 11 })]).toEqual([false, false])
  expect([possible({ temperature: 9.9 }), possible({ temperature: 10 })]).toEqual([false, true])
  expect([possible({ temperature: 26.66 }), possible({ temperature: 26.68 })]).toEqual([true, false])
})

test('missing data leave it open', () => {
  expect([possible({ rain: null }), possible({ temperature: null })]).toEqual([null, null])
  expect(possible({ wetHours: 11, complete: false })).toBe(null)
  expect(ascosporeInfection(spell({ rain: null })).complete).toBe(false)
})

test('two thirds of the Mills hours as an option', () => {
  const mills = (changes: Partial<WetSpell>) =>
    ascosporeInfection(spell(changes), { hours: 'two-thirds-mills' }).possible
  expect([mills({ temperature: 20, wetHours: 12 }), mills({ temperature: 20, wetHours: 11 })]).toEqual([
    true,
    false,
  ])
  expect([mills({ temperature: 10, wetHours: 19 }), mills({ temperature: 10, wetHours: 20 })]).toEqual([
    false,
    true,
  ])
})
