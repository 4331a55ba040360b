import { describe, expect, test } from 'vitest'
import { wetHours } from '../../../src/agronomy/weather/wet-hours.ts'
import { spellUpTo, wetSpells } from '../../../src/agronomy/weather/wet-spells.ts'
import { dry, type HourParts, hoursOf, times, wet } from '../weather-maker.ts'

const spells = (parts: HourParts[]) => {
  const hours = hoursOf(parts)
  return wetSpells(hours, wetHours(hours))
}

describe('wetHours', () => {
  const judge = (part: HourParts) => {
    const { wet, basis } = wetHours(hoursOf([part]))
    return [wet[0], basis[0]]
  }
  test('measured wetness decides, from 30 minutes, even against rain', () => {
    expect(judge({ wetness: 30 })).toEqual([true, 'wetness'])
    expect(judge({ wetness: 29, rain: 2, humidity: 99 })).toEqual([false, 'wetness'])
  })
  test('without it the proxy decides and is named', () => {
    expect(judge({ rain: 0.1 })).toEqual([true, 'rain or humidity'])
    expect(judge({ humidity: 90 })).toEqual([true, 'rain or humidity'])
    expect(judge({ rain: 0, humidity: 89.9 })).toEqual([false, 'rain or humidity'])
  })
  test('half a proxy cannot say dry', () => {
    expect(judge({ rain: 0 })).toEqual([null, null])
    expect(judge({ humidity: 50 })).toEqual([null, null])
    expect(judge({})).toEqual([null, null])
  })
})

describe('wetSpells', () => {
  test('a gap of 4 dry hours is bridged and not counted; 5 end the spell', () => {
    expect(spells([...dry(6), ...wet(3, 20), ...dry(4), ...wet(2, 10), ...dry(9)])).toEqual([
      {
        first: 6,
        last: 14,
        wetHours: 5,
        temperature: 16,
        rain: 5,
        complete: true,
      },
    ])
    const two = spells([...dry(6), ...wet(3, 20), ...dry(5), ...wet(2, 10), ...dry(8)])
    expect(two.map(({ wetHours }) => wetHours)).toEqual([3, 2])
  })

  test('an unknown hour inside or beside a spell makes it incomplete; a far one does not', () => {
    const gap = (before: number) => [...dry(4), {}, ...dry(before), ...wet(4, 20), ...dry(15 - before)]
    expect(spells(gap(4))[0]!.complete).toBe(false)
    expect(spells(gap(5))[0]!.complete).toBe(true)
    expect(spells([...wet(3, 20), ...dry(21)])[0]!.complete).toBe(false)
  })

  test('a wet hour without a temperature is no 0 °C', () => {
    const [spell] = spells([...dry(6), ...wet(3, 20), { wetness: 60 }, ...dry(14)])
    expect(spell).toMatchObject({ temperature: 20, wetHours: 4, complete: false, rain: null })
    expect(spells([...dry(6), ...times(2, { wetness: 60 }), ...dry(16)])[0]!.temperature).toBe(null)
  })

  test('a spell cut short is measured anew and does not know the future', () => {
    const hours = hoursOf([...dry(6), ...wet(3, 20), ...wet(3, 10), {}, ...dry(11)])
    const wetness = wetHours(hours)
    const [spell] = wetSpells(hours, wetness)
    expect(spell!.complete).toBe(false)
    expect(spellUpTo(hours, wetness, { spell: spell!, last: 8 })).toMatchObject({
      wetHours: 3,
      temperature: 20,
      complete: true,
    })
  })

  test('is complete from the first hour whose dry gap lies in the record', () => {
    const complete = (before: number) =>
      spells([...dry(before), ...wet(3, 20), ...dry(21 - before)])[0]!.complete
    expect([complete(4), complete(5), complete(6)]).toEqual([false, true, true])
  })

  test('an hour unknown at the far end of the gap before or after makes it incomplete, cut short or not', () => {
    const gapAt = (unknown: number) => {
      const parts = [...dry(24), ...dry(10), ...wet(20, 20), ...dry(18)]
      parts[unknown] = {}
      const hours = hoursOf(parts)
      const wetness = wetHours(hours)
      const [spell] = wetSpells(hours, wetness)
      return [spell!.complete, spellUpTo(hours, wetness, { spell: spell!, last: 47 }).complete]
    }
    // Wet from 34 to 53: the gaps of five hours are 29 to 33 and 54 to 58.
    expect([28, 29, 33, 54, 58, 59].map(gapAt)).toEqual([
      [true, true],
      [false, false],
      [false, false],
      [false, true],
      [false, true],
      [true, true],
    ])
  })
})
