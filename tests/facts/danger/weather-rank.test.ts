import { expect, test } from 'vitest'
import { weatherRank } from '../../../src/facts/danger/weather-rank.ts'
import type { PressureDay } from '../../../src/facts/disease/days.ts'

const wet = (date: string, botrytis: Partial<PressureDay['botrytis']>) =>
  ({
    date,
    botrytis: { wetHours: 0, temperature: null, complete: true, beyond: null, ...botrytis },
  }) as unknown as PressureDay

test('hours that were wet above the temperatures of the botrytis model are unknown, not without danger', () => {
  const on = (hottest: Partial<PressureDay['botrytis']>) =>
    weatherRank('botrytis', [wet('2026-07-01', {}), wet('2026-07-02', hottest)], {
      date: '2026-07-02',
      oilSpotsSince: null,
    })
  expect(on({ wetHours: 8, temperature: 31, beyond: 'temperature' })).toEqual({
    rank: 0,
    open: true,
    reasons: [],
    unknown: ['infection while wet above 30 °C on 2 Jul'],
  })
  expect(on({ wetHours: 8, temperature: 11, beyond: 'temperature' })).toMatchObject({
    open: false,
    unknown: [],
  })
  expect(on({})).toMatchObject({ rank: 0, open: false })
})
