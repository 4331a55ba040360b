import { expect, test } from 'vitest'
import { ascosporeInfection } from '../../../src/agronomy/disease/powdery-ascospores.ts'
import type { WetSpell } from '../../../src/agronomy/weather/wet-spells.ts'

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

test('says which limit it was, or what is missing', () => {
  const why = (changes: Partial<WetSpell>, limits = {}) => ascosporeInfection(spell(changes), limits).why
  expect(why({})).toBe('2.5 mm and 12 h wet at 15.0 °C')
  expect(why({ rain: 2.4 })).toBe('2.4 mm, 2.5 mm needed')
  expect(why({ wetHours: 11 })).toBe('11 h wet, 12.0 h needed')
  expect(why({ temperature: 9.9 })).toBe("mean 9.9 °C is outside the rule's range")
  expect(why({ temperature: null })).toBe('no temperature while wet')
  expect(why({ rain: null })).toBe('rain is missing for part of the wet spell')
  const mills = { hours: 'two-thirds-mills', lowest: 0 } as const
  expect(why({ temperature: 5 }, mills)).toBe('no table value at this temperature')
  expect(ascosporeInfection(spell({ temperature: 5 }), mills).possible).toBeNull()
})

test('is complete where the spell is and its rain is known', () => {
  const complete = (changes: Partial<WetSpell>) => ascosporeInfection(spell(changes)).complete
  expect([complete({}), complete({ complete: false }), complete({ rain: null })]).toEqual([
    true,
    false,
    false,
  ])
  expect(possible({ rain: 2.4, complete: false })).toBeNull()
  expect(possible({ temperature: 9, complete: false })).toBeNull()
})
