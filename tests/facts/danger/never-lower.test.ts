import fc from 'fast-check'
import { expect, test } from 'vitest'
import type { Danger } from '../../../src/facts/danger/danger.ts'
import { coversOf } from '../../../src/facts/protection/course.ts'
import { addDays, type IsoDate } from '../../../src/records/date.ts'
import { type Files, inputOf, judged, LAST, STAGES, stage, WALKS, WEATHER, walk, weather } from './book.ts'

const DISEASES = ['powdery', 'downy', 'botrytis'] as const
const DATES: IsoDate[] = Array.from({ length: 15 }, (_, at) => addDays('2026-04-10', at * 7))

/** Whether one class is no lower than another; unknown may be anything up to high. */
const notLower = (after: Danger['level'], before: Danger['level']): boolean => {
  if (after === 'unknown' || after === 'high') return true
  return before !== 'unknown' && (before === 'low' || before === after)
}

function expectNotLower(after: Files, before: Files, dates: readonly IsoDate[] = DATES) {
  const then = judged(before, dates)
  judged(after, dates).forEach((day, at) => {
    for (const disease of DISEASES) {
      const [was, is] = [then[at]![disease].level, day[disease].level]
      expect(notLower(is, was), `${disease} on ${day.date}: ${was} became ${is}`).toBe(true)
    }
  })
}

/** Weather with spells of rain, warmth and wet nights, and hours that are missing. */
const weathers = fc
  .record({
    wet: fc.array(
      fc.record({
        day: fc.integer({ min: 20, max: 108 }),
        hours: fc.integer({ min: 4, max: 40 }),
        warm: fc.integer({ min: 8, max: 24 }),
      }),
      { maxLength: 6 },
    ),
    hot: fc.integer({ min: 16, max: 27 }),
    missing: fc.array(fc.integer({ min: 0, max: 110 * 24 }), { maxLength: 3 }),
  })
  .map(({ wet, hot, missing }) => ({ wet, hot, missing: new Set(missing) }))

type Drawn = typeof weathers extends fc.Arbitrary<infer One> ? One : never

const textOf = ({ wet, hot, missing }: Drawn, alsoMissing?: number) => {
  let at = -1
  return weather((_, hour) => {
    at++
    if (missing.has(at) || at === alsoMissing) return null
    const spell = wet.find(({ day, hours }) => at >= day * 24 && at < day * 24 + hours)
    if (spell) return { warm: spell.warm, humid: 99, rain: 0.8, wet: 60 }
    return hour >= 9 && hour < 20 ? { warm: hot } : {}
  })
}

const days = fc.integer({ min: 5, max: 105 }).map((day) => addDays('2026-04-01', day))
const codes = fc.constantFrom(3, 9, 13, 15, 53, 57, 61, 65, 69, 71, 75, 79, 81, 83)
const notes = fc
  .uniqueArray(fc.record({ date: days, code: codes }), { maxLength: 3, selector: ({ date }) => date })
  .map((all) => all.toSorted((a, b) => (a.date < b.date ? -1 : 1)))
const stagesOf = (all: readonly { date: IsoDate; code: number }[]) =>
  all.map(({ date, code }) => stage(date, code)).join('') || null

const runs = { numRuns: 25 }

test('noting a stage never lowers the danger of the days before it', () => {
  fc.assert(
    fc.property(weathers, notes, fc.record({ date: days, code: codes }), (drawn, noted, one) => {
      const before = { [WEATHER]: textOf(drawn), [STAGES]: stagesOf(noted) }
      const after = {
        ...before,
        [STAGES]: stagesOf([...noted, one].toSorted((a, b) => (a.date < b.date ? -1 : 1))),
      }
      expectNotLower(
        after,
        before,
        DATES.filter((date) => date < one.date),
      )
    }),
    runs,
  )
})

test('a find never lowers danger', () => {
  const finds = fc.record({
    date: days,
    disease: fc.constantFrom(...DISEASES),
    count: fc.integer({ min: 1, max: 60 }),
    organ: fc.constantFrom('bunches', 'leaves'),
  })
  fc.assert(
    fc.property(weathers, notes, fc.array(finds, { maxLength: 2 }), finds, (drawn, noted, seen, one) => {
      const text = (all: readonly { date: IsoDate; disease: string; count: number; organ: string }[]) =>
        all
          .toSorted((a, b) => (a.date < b.date ? -1 : 1))
          .map(({ date, disease, count, organ }) => walk(date, `${disease}: { ${organ}: ${count} }`))
          .join('') || null
      const before = { [WEATHER]: textOf(drawn), [STAGES]: stagesOf(noted), [WALKS]: text(seen) }
      expectNotLower({ ...before, [WALKS]: text([...seen, one]) }, before)
    }),
    runs,
  )
})

test('an hour of missing weather never lowers danger', () => {
  fc.assert(
    fc.property(weathers, notes, fc.integer({ min: 0, max: 110 * 24 }), (drawn, noted, hour) => {
      const before = { [WEATHER]: textOf(drawn), [STAGES]: stagesOf(noted) }
      expectNotLower({ ...before, [WEATHER]: textOf(drawn, hour) }, before)
    }),
    runs,
  )
})

test('a more susceptible variety never lowers danger, and does not change protection', () => {
  const proneness = ['low', 'medium', 'high']
  fc.assert(
    fc.property(weathers, notes, fc.integer({ min: 0, max: 1 }), (drawn, noted, at) => {
      const variety = (prone: string) =>
        `name: Palava\ncolour: white\nsusceptibility: { powdery: ${prone}, downy: ${prone}, botrytis: ${prone} }\n`
      const files = (prone: string) => ({
        [WEATHER]: textOf(drawn),
        [STAGES]: stagesOf(noted),
        'varieties/palava.yaml': variety(prone),
      })
      expectNotLower(files(proneness[at + 1]!), files(proneness[at]!))
    }),
    runs,
  )
})

test('adding a spray never raises danger, and never unprotects a day', () => {
  fc.assert(
    fc.property(weathers, notes, days, days, (drawn, noted, first, second) => {
      const spray = (date: IsoDate) =>
        `- { date: ${date}, time: 18:00-19:00, blocks: [upper], water: 300 L/ha, products: [ { product: sulphur, rate: 3 kg/ha, for: powdery } ] }\n`
      const files = (dates: readonly IsoDate[]) => ({
        [WEATHER]: textOf(drawn),
        [STAGES]: stagesOf(noted),
        'seasons/2026/sprays.yaml': dates.toSorted().map(spray).join(''),
      })
      const [one, two] = [files([first]), files([first, second])].map((each) => {
        const { covers } = coversOf(inputOf(each)).find(({ block }) => block.id === 'upper')!
        return covers.find(({ disease }) => disease === 'powdery')!.days
      })
      two!.forEach((day, at) => {
        expect(day.danger).toEqual(one![at]!.danger)
        if (one![at]!.covered === true) expect(day.covered, day.date).toBe(true)
      })
    }),
    runs,
  )
})

test('unknown weather with fruit at risk is not low', () => {
  const none = judged({ [STAGES]: stage('2026-06-10', 61) }, ['2026-06-12', '2026-06-20', '2026-06-30'], LAST)
  for (const day of none)
    for (const disease of DISEASES.slice(0, 2)) expect(day[disease].level, day.date).not.toBe('low')
})

test('neither a find, a missing hour nor a more susceptible variety lengthens protection', () => {
  const changes = fc.constantFrom('find', 'hour', 'variety')
  const hours = fc.integer({ min: 0, max: 110 * 24 })
  fc.assert(
    fc.property(weathers, notes, days, hours, changes, (drawn, noted, sprayed, hour, change) => {
      const variety = (prone: string) =>
        `name: Palava\ncolour: white\nsusceptibility: { powdery: ${prone}, downy: ${prone}, botrytis: ${prone} }\n`
      const before: Files = {
        [WEATHER]: textOf(drawn),
        [STAGES]: stagesOf(noted),
        'seasons/2026/sprays.yaml': `- { date: ${sprayed}, time: 18:00-19:00, blocks: [upper], water: 300 L/ha, products: [ { product: sulphur, rate: 3 kg/ha, for: powdery } ] }\n`,
        'varieties/palava.yaml': variety('low'),
      }
      const after: Files = {
        ...before,
        ...(change === 'hour' ? { [WEATHER]: textOf(drawn, hour) } : {}),
        ...(change === 'find' ? { [WALKS]: walk(sprayed, 'powdery: { bunches: 30 }') } : {}),
        ...(change === 'variety' ? { 'varieties/palava.yaml': variety('high') } : {}),
      }
      const [was, is] = [before, after].map((files) => {
        const { covers } = coversOf(inputOf(files)).find(({ block }) => block.id === 'upper')!
        return new Map(
          covers
            .find(({ disease }) => disease === 'powdery')!
            .days.map(({ date, covered }) => [date, covered]),
        )
      })
      for (const [date, covered] of is!)
        if (covered === true && was!.has(date)) expect(was!.get(date), `${date} after a ${change}`).toBe(true)
    }),
    runs,
  )
})
