import type { Finding } from '../ledger/finding.ts'
import type { SampleEntry } from '../ledger/ledger.ts'
import { daysBetween } from '../records/date.ts'
import { groupedBy, judged } from './facts/judged.ts'
import { median } from './facts/median.ts'
import { say } from './facts/say.ts'
import { odd, unusual } from './facts/usual.ts'
import { mention, type Rule } from './rule.ts'

const NAME = 'unlikely-sample'

/** A berry sample whose figures no grapes have, or that doesn't fit the one before. */
export const unlikelySample: Rule = {
  name: NAME,
  about: {
    what: 'Sugar, acid, pH, berries or weight of a sample are outside what grapes have; one reading lies far from the others; or sugar, acid or pH went in a week where ripening does not take them.',
    limits:
      '3-30 Brix, pH 2.6-4.1, acid 3-35 g/L, 5-600 berries, 0.3-4 g a berry; from one sample to the next sugar down by 2.5 Brix or more, or up by 1 Brix a day and more than 3; pH by 0.4; acid up by 3 g/L or down by 1.2 g/L a day and more than 5',
    source: 'own rule; levels common practice, no source',
    basis: 'common practice',
  },
  check: (book) => {
    const samples = judged(book, 'samples')
    const lists = groupedBy(samples, ({ block, season }) => `${block} ${season}`)
    return [
      ...samples.flatMap(levels),
      ...[...lists.values()].flatMap((list) =>
        list.flatMap((sample, index) => steps(list.slice(0, index), sample)),
      ),
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

function levels(sample: SampleEntry): Finding[] {
  const readings = KEYS.flatMap(({ key, low, high, unit, what, apart }) => {
    const values = sample[key]
    if (!values) return []
    const at = (index: number) => (values.length > 1 ? [key, index] : [key])
    const off = unusual(
      NAME,
      sample,
      values.map((value, index) => ({ path: at(index), value, low, high, unit, what })),
    )
    const middle = median(values)!
    const lone =
      values.length < 3 || off.length > 0
        ? []
        : values.flatMap((value, index) =>
            Math.abs(value - middle) > apart
              ? [
                  odd(
                    NAME,
                    sample,
                    at(index),
                    `${say(value, unit)} lies far from the other readings, about ${say(middle, unit)}`,
                  ),
                ]
              : [],
          )
    return [...off, ...lone]
  })
  return [
    ...readings,
    ...unusual(NAME, sample, [
      { path: ['berries'], value: sample.berries, low: 5, high: 600, what: 'number of berries' },
      {
        path: ['berry_weight'],
        value: sample.berry_weight,
        low: 0.3,
        high: 4,
        unit: 'g',
        what: 'weight of a berry',
      },
      {
        path: ['temperature'],
        value: sample.temperature,
        low: 4,
        high: 40,
        unit: '°C',
        what: 'temperature of juice',
      },
    ]),
  ]
}

const mean = (values: readonly number[] | undefined) =>
  values ? values.reduce((sum, one) => sum + one, 0) / values.length : undefined

function steps(before: readonly SampleEntry[], sample: SampleEntry): Finding[] {
  const findings: Finding[] = []
  const judge = (key: 'brix' | 'ph' | 'ta', tell: (change: number, days: number) => boolean) => {
    const last = before.findLast((one) => one[key] !== undefined && one.date < sample.date)
    const now = mean(sample[key])
    if (!last || now === undefined) return
    const was = mean(last[key])!
    const days = daysBetween(last.date, sample.date)
    if (days > 45 || !tell(now - was, days)) return
    findings.push(
      odd(
        NAME,
        sample,
        [key],
        `${key} went from ${say(was)} to ${say(now)} in ${days} d (${mention(last, [key])})`,
      ),
    )
  }
  judge('brix', (change, days) => change <= -2.5 || (change > 3 && change / days > 1))
  judge('ph', (change, days) => Math.abs(change) > 0.4 && Math.abs(change) / days > 0.03)
  judge('ta', (change, days) => change > 3 || (change < -5 && -change / days > 1.2))
  return findings
}
