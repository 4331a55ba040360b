import { describe, expect, test } from 'vitest'
import { countRain, type RainPeriod } from '../../../src/agronomy/weather/rain-count.ts'

const spray = { sprayed: 100, asOf: 130, rainFastHours: 4, washOff: 20 }
const fall = (from: number, to: number, rain: number | null): RainPeriod => ({ from, to, rain })
/** Dry hours around the falls, so that nothing is missing. */
const dryBut = (...falls: RainPeriod[]) => {
  const at = (hour: number) => falls.find(({ from, to }) => hour >= from && hour < to)
  const hours = Array.from({ length: 40 }, (_, hour) => 95 + hour)
  return hours.flatMap((hour) => {
    const within = at(hour)
    return within ? (within.from === hour ? [within] : []) : [fall(hour, hour + 1, 0)]
  })
}
const counted = (...falls: RainPeriod[]) => countRain(spray, dryBut(...falls))

describe('rain before it was dry', () => {
  test.each<[what: string, falls: RainPeriod[], at: number | null, certain?: boolean]>([
    ['none', [], null],
    ['in the hour in which spraying ended', [fall(100, 101, 1)], 100, true],
    ['in the last hour before it was dry', [fall(103, 104, 1)], 103, true],
    ['in the hour from which it was dry', [fall(104, 105, 1)], null],
    ['in the hour before spraying ended', [fall(99, 100, 1)], null],
    ['in a time that began before spraying ended', [fall(99, 102, 1)], 100, false],
    ['in a time that went on after it was dry', [fall(102, 105, 1)], 102, false],
    ['in a time from before spraying to after it was dry', [fall(98, 106, 1)], 100, false],
    ['twice: the first counts', [fall(101, 102, 1), fall(103, 104, 1)], 101, true],
  ])('%s', (_, falls, at, certain) => {
    expect(counted(...falls).beforeDry).toEqual(at === null ? null : { at, certain })
  })

  test('is not asked about where no hours are given', () => {
    expect(countRain({ sprayed: 100, asOf: 130 }, dryBut(fall(100, 101, 5)))).toEqual({
      sum: 5,
      missing: [],
      beforeDry: null,
      washedOff: null,
    })
  })
})

describe('rain that washes off', () => {
  test('is the sum that reaches the limit, from the start of the fall that does', () => {
    expect(counted(fall(110, 111, 12), fall(118, 120, 8))).toMatchObject({
      sum: 20,
      washedOff: { at: 118, certain: true },
    })
    expect(counted(fall(110, 111, 12), fall(118, 120, 7.9)).washedOff).toBeNull()
    // Tenths whose binary sum stays just under 20.
    expect(counted(...Array.from({ length: 9 }, (_, at) => fall(110 + at, 111 + at, 2.3))).sum).toBeCloseTo(
      20.7,
      9,
    )
    expect(
      countRain({ ...spray, washOff: 0.3 }, dryBut(fall(110, 111, 0.1), fall(112, 113, 0.2))).washedOff,
    ).toEqual({ at: 112, certain: true })
  })

  test('is unsure where the limit is only reached with rain that may have fallen before', () => {
    expect(counted(fall(98, 102, 5), fall(110, 111, 16)).washedOff).toEqual({ at: 110, certain: false })
    expect(counted(fall(98, 102, 5), fall(110, 111, 20)).washedOff).toEqual({ at: 110, certain: true })
    expect(counted(fall(98, 102, 25)).washedOff).toEqual({ at: 100, certain: false })
  })
})

describe('the time counted', () => {
  test('runs from the end of spraying up to the day of asking', () => {
    expect(counted(fall(99, 100, 7), fall(100, 101, 1), fall(129, 130, 2), fall(130, 131, 9)).sum).toBe(3)
  })

  test('what no time covers, and what is unknown, is missing', () => {
    const { missing, sum } = countRain(spray, [fall(96, 104, 1), fall(106, 108, null), fall(108, 120, 2)])
    expect(sum).toBe(3)
    expect(missing).toEqual([
      { from: 104, to: 106 },
      { from: 106, to: 108 },
      { from: 120, to: 130 },
    ])
    expect(countRain(spray, []).missing).toEqual([{ from: 100, to: 130 }])
    expect(countRain(spray, [fall(96, 140, null)]).missing).toEqual([{ from: 100, to: 130 }])
    expect(countRain(spray, [fall(96, 130, 0)]).missing).toEqual([])
  })

  test.each([
    ['that overlap', [fall(100, 102, 0), fall(101, 103, 0)]],
    ['that run backwards', [fall(102, 101, 0)]],
    ['of no length', [fall(102, 102, 0)]],
    ['of less than no rain', [fall(102, 103, -0.1)]],
  ])('refuses times %s', (_, periods) => {
    expect(() => countRain(spray, periods)).toThrow('periods in order')
  })
})
