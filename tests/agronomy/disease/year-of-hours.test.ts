import { expect, test } from 'vitest'
import { blackRotOfSpell } from '../../../src/agronomy/disease/black-rot.ts'
import { botrytisOfSpell } from '../../../src/agronomy/disease/botrytis.ts'
import { downyPrimary } from '../../../src/agronomy/disease/downy-primary.ts'
import { DOWNY_PRIMARY_RULES } from '../../../src/agronomy/disease/downy-primary-rules.ts'
import { downySecondary } from '../../../src/agronomy/disease/downy-secondary.ts'
import { powderyIndex } from '../../../src/agronomy/disease/powdery-index.ts'
import { spellDays } from '../../../src/agronomy/weather/spell-days.ts'
import { everyHour } from '../../../src/agronomy/weather/weather-hours.ts'
import { wetHours } from '../../../src/agronomy/weather/wet-hours.ts'
import { rowsOf } from '../weather-maker.ts'

test('a year of hours is indexed in no more than a few seconds, whatever else the machine does', () => {
  const rows = rowsOf(
    Array.from({ length: 8760 }, (_, at) => ({
      temperature:
        12 - 9 * Math.cos((at / 8760) * 2 * Math.PI) - 5 * Math.cos(((at % 24) / 24) * 2 * Math.PI),
      humidity: 80 + 19 * Math.sin(at / 7),
      rain: at % 50 < 6 ? 0.8 : 0,
    })),
  )
  const runs = Array.from({ length: 3 }, () => {
    const start = performance.now()
    const hours = everyHour(rows)
    const wetness = wetHours(hours)
    const spells = spellDays(hours, wetness)
    const lengths = [
      powderyIndex(hours),
      spells.map(botrytisOfSpell),
      spells.map(blackRotOfSpell),
      downyPrimary(hours, DOWNY_PRIMARY_RULES['ten-ten-twentyfour']),
      downySecondary(hours, { wetness, night: () => ({ sunset: 20, sunrise: 6 }) }),
    ].map((days) => days.length)
    expect(lengths).toEqual([365, 365, 365, 365, 365])
    return performance.now() - start
  })
  // About 4 ms once warm on an idle machine; the limit only catches growth with the square.
  expect(Math.min(...runs)).toBeLessThan(3000)
})
