import { expect, test } from 'vitest'
import { ascosporeInfection } from '../../../src/agronomy/disease/powdery-ascospores.ts'
import type { WetSpell } from '../../../src/agronomy/weather/wet-spells.ts'

const spell = (changes: Partial<WetSpell>): WetSpell => ({
  first: 10,
  last: 21,
  wetHours: 12,
  temperature: 15,
  rain: 2.5,
  complete: true,
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

test('says which limit it was, or what is missing', () => {
  const why = (changes: Partial<WetSpell>) => ascosporeInfection(spell(changes)).why
  expect(why({})).toBe('2.5 mm and 12 h wet at 15.0 °C')
  expect(why({ rain: 2.4 })).toBe('2.4 mm, 2.5 mm needed')
  expect(why({ wetHours: 11 })).toBe('11 h wet, 12.0 h needed')
  expect(why({ temperature: 9.9 })).toBe("mean 9.9 °C is outside the rule's range")
  expect(why({ temperature: null })).toBe('no temperature while wet')
  expect(why({ rain: null })).toBe('rain is missing for part of the wet spell')
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
