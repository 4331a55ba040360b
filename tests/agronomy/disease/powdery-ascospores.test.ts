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
const possible = (changes: Partial<WetSpell>) => ascosporeInfection(spell(changes))

test('each limit on both sides', () => {
  expect(possible({})).toBe(true)
  expect([possible({ rain: 2.4 }), possible({ wetHours: 11 })]).toEqual([false, false])
  expect([possible({ temperature: 9.9 }), possible({ temperature: 10 })]).toEqual([false, true])
  expect([possible({ temperature: 26.66 }), possible({ temperature: 26.68 })]).toEqual([true, false])
})

test('missing data leave it open', () => {
  expect([possible({ rain: null }), possible({ temperature: null })]).toEqual([null, null])
  expect(possible({ wetHours: 11, complete: false })).toBe(null)
})

test('hours that may have been wet too leave what is not reached open', () => {
  expect(possible({ rain: 2.4, complete: false })).toBeNull()
  expect(possible({ temperature: 9, complete: false })).toBeNull()
})
