import { median } from '../../agronomy/statistics/median.ts'
import { groupedBy, judged } from '../../facts/judged.ts'
import { figureText } from '../../facts/sentences.ts'
import type { SampleEntry } from '../../ledger/read/ledger.ts'
import type { Found, Rule } from '../rule.ts'
import { seasonKey } from './beside-picks.ts'
import { against, knownOf, peaks, steps } from './sample-course.ts'
import { slipsOf } from './usual.ts'

/** A berry sample whose figures no grapes have, or that doesn't fit the one before. */
export const unlikelySample: Rule = {
  name: 'unlikely-sample',
  what: 'Sugar, acid, pH, berries or weight of a sample are outside the range of grapes. Or one reading is far from the others. Or sugar, acid or pH changed more than ripening does, or differs from the samples before and after. Or no ripening berries hang on that date.',
  limits:
    'Usual are: 3 to 30 Brix; pH 2.6 to 4.1; acid 3 to 35 g/L; 5 to 600 berries; 0.3 to 4 g a berry. From one sample to the next, too much is: sugar down by 2 Brix, or by 1 in a fortnight; sugar up by more than 3 Brix at 1 Brix a day or more; pH by 0.4; acid up by more than 2 g/L; acid down by more than 5 g/L at 1.2 g/L a day or more. From 14 g/L or less, more than 2.5 g/L at over 5 % of itself a day is too much. That is counted over at least 5 days. Beside both neighbours, too much is 3 Brix, pH 0.3 or 2.5 g/L.',
  source: 'own rule; levels common practice, no source',
  basis: 'common practice',
  check: (input) => {
    const samples = judged(input, 'samples')
    const known = knownOf(input)
    const lists = groupedBy(samples, seasonKey)
    return [
      ...samples.flatMap(levels),
      ...[...lists.values()].flatMap((list) => [...against(known, list), ...steps(list), ...peaks(list)]),
    ]
  },
}

const KEYS = [
  { key: 'brix', what: 'sugar in Brix', range: [3, 30, ''], apart: 8 },
  { key: 'oechsle', what: 'sugar in Oechsle', range: [15, 135, ''], apart: 35 },
  { key: 'baume', what: 'sugar in Baumé', range: [2, 17, ''], apart: 5 },
  { key: 'density', what: 'specific gravity', range: [1.01, 1.135, ''], apart: 0.035 },
  { key: 'ph', what: 'pH', range: [2.6, 4.1, ''], apart: 0.6 },
  { key: 'ta', what: 'acidity', range: [3, 35, 'g/L'], apart: 8 },
] as const

function levels(sample: SampleEntry): Found[] {
  const slips = slipsOf(sample)
  for (const { key, what, range, apart } of KEYS) {
    const values = sample[key] ?? []
    const before = slips.found.length
    for (const [index, value] of values.entries()) slips.unusual([key, index], value, what, range)
    if (values.length < 3 || slips.found.length > before) continue
    const middle = median(values)!
    for (const [index, value] of values.entries())
      if (isFar(value, { values, middle, apart }))
        slips.odd(
          [key, index],
          `${figureText(value, range[2])} is far from the other readings (about ${figureText(middle, range[2])})`,
          "check this reading's decimal point; if it is right, measure again",
        )
  }
  slips.unusual(['berries'], sample.berries, 'number of berries', [5, 600])
  slips.unusual(['berry_weight'], sample.berry_weight, 'weight of a berry', [0.3, 4, 'g'])
  slips.unusual(['temperature'], sample.temperature, 'temperature of juice', [4, 40, '°C'])
  return slips.found
}

/** Whether one reading lies far from the middle of the others: by a fixed step, or where they lie close by far less. */
function isFar(value: number, of: { values: readonly number[]; middle: number; apart: number }): boolean {
  const off = Math.abs(value - of.middle)
  const scatter = median(of.values.map((one) => Math.abs(one - of.middle)))!
  return off > of.apart || (of.values.length >= 5 && off > of.apart * 0.6 && off > 6 * scatter)
}
