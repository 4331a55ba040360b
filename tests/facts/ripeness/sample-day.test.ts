import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { readSample } from '../../../src/facts/ripeness/sample.ts'
import { type Measured, sampleDays, sampleDayText } from '../../../src/facts/ripeness/sample-day.ts'
import type { SampleEntry } from '../../../src/ledger/read/ledger.ts'
import { sample } from '../../../src/records/kinds/sample.ts'

const DAY = '2026-09-12'

const taken = (fields: object) => {
  const entry = sample().parse({ date: DAY, block: 'upper', ...fields }) as SampleEntry
  return { entry, facts: readSample(entry) }
}
const daysOf = (list: readonly object[], of: Measured = 'brix') => sampleDays(list.map(taken), of)
/** The figure of the only day, and what was left out of it. */
const onTheDay = (list: readonly object[], of?: Measured) => {
  const days = daysOf(list, of)
  expect(days).toHaveLength(1)
  return { mean: days[0]!.mean, of: days[0]!.of, aside: days[0]!.aside }
}

describe('the figure of a sampling day', () => {
  test('150 berries, of which 100 at 20.0 and 50 at 18.5, are at 19.5, worked out by hand', () => {
    const two = [
      { berries: 100, brix: 20 },
      { berries: 50, brix: 18.5 },
    ]
    expect(onTheDay(two)).toEqual({ mean: expect.closeTo(19.5, 9), of: 2, aside: [] })
    expect(onTheDay(two.toReversed()).mean).toBeCloseTo(19.5, 9)
  })

  test('a sample without a number counts as 60 berries, one read berry by berry as its berries', () => {
    expect(onTheDay([{ berries: 20, brix: 18 }, { brix: 20 }]).mean).toBeCloseTo((20 * 18 + 60 * 20) / 80, 9)
    const oneByOne = { of: 'berry', brix: [17, 18, 19] }
    expect(onTheDay([oneByOne, { berries: 9, brix: 20 }]).mean).toBeCloseTo((3 * 18 + 9 * 20) / 12, 9)
  })

  test.each<[string, Measured, object, object, number]>([
    ['bunches beside berries', 'brix', { berries: 100, brix: 20 }, { of: 'bunch', brix: [18, 19] }, 18.5],
    ['whole vines beside berries', 'brix', { berries: 100, brix: 20 }, { of: 'vine', brix: 18 }, 18],
    ['another instrument', 'brix', { berries: 90, brix: 20 }, { brix: 18, instrument: 'hydrometer' }, 18],
    ['another scale', 'brix', { berries: 90, brix: 20 }, { density: 1.0741 }, 18],
    ['another end of titration', 'ta', { berries: 90, ta: '8 g/L', end_point: 8.2 }, { ta: '7 g/L' }, 7],
  ])('%s is left out, with what it read', (_, of, more, fewer, aside) => {
    const found = onTheDay([more, fewer], of)
    expect(found).toMatchObject({ mean: of === 'ta' ? 8 : 20, of: 1, aside: [expect.closeTo(aside, 1)] })
    expect(onTheDay([fewer, more], of)).toEqual(found)
  })

  test('the scale of the sugar keeps no pH apart, nor do capitals an instrument', () => {
    const two = [
      { brix: 20, ph: 3.1, instrument: 'Lab' },
      { oechsle: 83, ph: 3.2, instrument: 'lab ' },
    ]
    expect(onTheDay(two, 'ph')).toEqual({ mean: expect.closeTo(3.15, 9), of: 2, aside: [] })
    expect(onTheDay(two).of).toBe(1)
  })

  test('the method of most sampling days counts, even with fewer berries that day', () => {
    const before = ['08-29', '09-05'].map((day) => ({ date: `2026-${day}`, brix: 17 }))
    const [berries, bunches] = [
      { berries: 50, brix: 20 },
      { of: 'bunch', berries: 900, brix: [18, 18.4] },
    ]
    const last = (list: readonly object[]) => daysOf(list).at(-1)!
    expect(last([...before, berries, bunches])).toMatchObject({ date: DAY, mean: 20, aside: [18.2] })
    expect(last([berries, bunches]).mean).toBeCloseTo(18.2, 9)
    const always = before.map((one) => ({ ...one, of: 'bunch' }))
    expect(last([...always, berries, bunches])).toMatchObject({ mean: expect.closeTo(18.2, 9), aside: [20] })
  })

  test('where days and berries are as many, what was written last counts', () => {
    const [first, second] = [{ brix: 20 }, { brix: 19, instrument: 'other' }]
    expect(onTheDay([first, second])).toEqual({ mean: 19, of: 1, aside: [20] })
    expect(onTheDay([second, first])).toEqual({ mean: 20, of: 1, aside: [19] })
  })

  test('a sample that gives no sugar counts for nothing', () => {
    expect(onTheDay([{ brix: 20 }, { brix: 12, fermenting: true }])).toEqual({ mean: 20, of: 1, aside: [] })
    expect(daysOf([{ ph: 3.1 }])).toEqual([])
  })

  test('with one sample a day, each day has that figure to the last digit', () => {
    const brix = fc.double({ min: 5, max: 28, noNaN: true })
    fc.assert(
      fc.property(fc.array(brix, { maxLength: 6 }), (values) => {
        const days = daysOf(values.map((value, at) => ({ date: `2026-09-0${at + 1}`, brix: value })))
        expect(days.map(({ mean }) => mean)).toEqual(values)
      }),
    )
  })

  test('it says how it was made, and nothing of one sample', () => {
    expect(sampleDayText({ of: 1, aside: [] }, 1)).toBe('')
    expect(sampleDayText({ of: 2, aside: [18.22] }, 1)).toBe(
      ' (mean of 2 samples by their berries; 18.2 left out: not recorded as taken and read alike)',
    )
  })
})
