import { describe, expect, test } from 'vitest'
import { spellDays } from '../../../src/agronomy/weather/spell-days.ts'
import { wetHours } from '../../../src/agronomy/weather/wet-hours.ts'
import { dry, type HourParts, hoursOf, wet } from '../weather-maker.ts'

const seen = (parts: HourParts[]) => {
  const hours = hoursOf(parts)
  return spellDays(hours, wetHours(hours)).map(({ spells, unknownHours }) => [
    spells.map((spell) => [spell.first, spell.last, spell.wetHours]),
    unknownHours,
  ])
}

describe('wet spells day by day', () => {
  test('as each stood at the last wet hour of the day', () => {
    expect(seen([...dry(20), ...wet(10, 15), ...dry(18)])).toEqual([
      [[[20, 23, 4]], 0],
      [[[20, 29, 10]], 0],
    ])
  })

  test('from the first hour of a day and up to its last', () => {
    expect(seen([...dry(23), ...wet(1, 15), ...dry(12), ...wet(12, 15)])).toEqual([
      [[[23, 23, 1]], 0],
      [[[36, 47, 12]], 0],
    ])
    expect(seen([...dry(10), ...wet(2, 15), ...dry(12), ...wet(1, 15), ...dry(23)])).toEqual([
      [[[10, 11, 2]], 0],
      [[[24, 24, 1]], 0],
    ])
  })

  test('with the hours counted of which wetness is unknown', () => {
    expect(seen([...dry(4), {}, {}, ...dry(18), ...dry(23), {}])).toEqual([
      [[], 2],
      [[], 1],
    ])
  })
})
