import { median } from '../../agronomy/statistics/median.ts'
import { groupedBy, judged } from '../../facts/judged.ts'
import { say } from '../../facts/say.ts'
import type { SampleEntry } from '../../ledger/read/ledger.ts'
import type { Found, Rule } from '../rule.ts'
import { seasonKey } from './beside-picks.ts'
import { against, knownOf, peaks, steps } from './sample-course.ts'
import { slipsOf } from './usual.ts'

/** A berry sample whose figures no grapes have, or that doesn't fit the one before. */
export const unlikelySample: Rule = {
  name: 'unlikely-sample',
  about: {
    what: 'Sugar, acid, pH, berries or weight of a sample are outside the range of grapes. Or one reading is far from the others. Or sugar, acid or pH changed more than ripening does, or differs from the samples before and after. Or no ripening berries hang on that date.',
    limits:
      'Usual are: 3 to 30 Brix; pH 2.6 to 4.1; acid 3 to 35 g/L; 5 to 600 berries; 0.3 to 4 g a berry. From one sample to the next, too much is: sugar down by 2 Brix, or by 1 in a fortnight; sugar up by more than 3 Brix at 1 Brix a day or more; pH by 0.4; acid up by more than 2 g/L; acid down by more than 5 g/L at 1.2 g/L a day or more. From 14 g/L or less, more than 2.5 g/L at over 5 % of itself a day is too much. That is counted over at least 5 days. Beside both neighbours, too much is 3 Brix, pH 0.3 or 2.5 g/L.',
    source: 'own rule; levels common practice, no source',
    basis: 'common practice',
  },
  check: (book) => {
    const samples = judged(book, 'samples')
    const known = knownOf(book)
    const lists = groupedBy(samples, seasonKey)
    return [
      ...samples.flatMap(levels),
      ...[...lists.values()].flatMap((list) => [...against(known, list), ...steps(list), ...peaks(list)]),
    ]
  },
}

const KEYS = [
  { key: 'brix', low: 3, high: 30, unit: '', what: 'sugar in Brix', apart: 8 },
  { key: 'oechsle', low: 15, high: 135, unit: '', what: 'sugar in Oechsle', apart: 35 },
  { key: 'baume', low: 2, high: 17, unit: '', what: 'sugar in Baumé', apart: 5 },
  { key: 'density', low: 1.01, high: 1.135, unit: '', what: 'specific gravity', apart: 0.035 },
  { key: 'ph', low: 2.6, high: 4.1, unit: '', what: 'pH', apart: 0.6 },
  { key: 'ta', low: 3, high: 35, unit: 'g/L', what: 'acidity', apart: 8 },
] as const

function levels(sample: SampleEntry): Found[] {
  const slips = slipsOf(sample)
  for (const { key, apart, ...usual } of KEYS) {
    const values = sample[key] ?? []
    const before = slips.found.length
    for (const [index, value] of values.entries()) slips.unusual([key, index], value, usual)
    if (values.length < 3 || slips.found.length > before) continue
    const middle = median(values)!
    for (const [index, value] of values.entries())
      if (isFar(value, { values, middle, apart }))
        slips.odd(
          [key, index],
          `${say(value, usual.unit)} is far from the other readings (about ${say(middle, usual.unit)})`,
          "check this reading's decimal point; if it is right, measure again",
        )
  }
  slips.unusual(['berries'], sample.berries, { low: 5, high: 600, what: 'number of berries' })
  slips.unusual(['berry_weight'], sample.berry_weight, {
    low: 0.3,
    high: 4,
    unit: 'g',
    what: 'weight of a berry',
  })
  slips.unusual(['temperature'], sample.temperature, {
    low: 4,
    high: 40,
    unit: '°C',
    what: 'temperature of juice',
  })
  return slips.found
}

/** Whether one reading lies far from the middle of the others: by a fixed step, or where they lie close by far less. */
function isFar(value: number, of: { values: readonly number[]; middle: number; apart: number }): boolean {
  const off = Math.abs(value - of.middle)
  const scatter = median(of.values.map((one) => Math.abs(one - of.middle)))!
  return off > of.apart || (of.values.length >= 5 && off > of.apart * 0.6 && off > 6 * scatter)
}
