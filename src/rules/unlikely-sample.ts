import type { Finding } from '../ledger/finding.ts'
import type { SampleEntry } from '../ledger/ledger.ts'
import { daysBetween } from '../records/date.ts'
import { groupedBy, judged } from './facts/judged.ts'
import { median } from './facts/median.ts'
import { outOfSeason } from './facts/northern-month.ts'
import { readSample } from './facts/sample.ts'
import { say } from './facts/say.ts'
import { odd, unusual } from './facts/usual.ts'
import { type Book, mention, type Rule } from './rule.ts'

const NAME = 'unlikely-sample'

/** A berry sample whose figures no grapes have, or that doesn't fit the one before. */
export const unlikelySample: Rule = {
  name: NAME,
  about: {
    what: 'Sugar, acid, pH, berries or weight of a sample are outside what grapes have; one reading lies far from the others; sugar, acid or pH went in a week where ripening does not take them, or stand out of the samples before and after; or the date is none on which ripening berries hang.',
    limits:
      '3-30 Brix, pH 2.6-4.1, acid 3-35 g/L, 5-600 berries, 0.3-4 g a berry; from one sample to the next sugar down by 2 Brix, or by 1 in a fortnight, or up by 1 Brix a day and more than 3; pH by 0.4; acid up by 3 g/L or down by 1.2 g/L a day and more than 5; out of both neighbours by 3 Brix, pH 0.3, 2.5 g/L',
    source: 'own rule; levels common practice, no source',
    basis: 'common practice',
  },
  check: (book) => {
    const samples = judged(book, 'samples')
    const lists = groupedBy(samples, ({ block, season }) => `${block} ${season}`)
    return [
      ...samples.flatMap(levels),
      ...samples.flatMap((sample) => against(book, sample)),
      ...[...lists.values()].flatMap((list) => [
        ...list.flatMap((sample, index) => steps(list.slice(0, index), sample)),
        ...peaks(list),
      ]),
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
            isFar(value, { values, middle, apart })
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

/** Whether one reading lies far from the middle of the others: by a fixed step, or where they lie close by far less. */
function isFar(value: number, of: { values: readonly number[]; middle: number; apart: number }): boolean {
  const off = Math.abs(value - of.middle)
  const scatter = median(of.values.map((one) => Math.abs(one - of.middle)))!
  return off > of.apart || (of.values.length >= 5 && off > of.apart * 0.6 && off > 6 * scatter)
}

type Figure = 'brix' | 'ph' | 'ta'

/** A figure of a sample on one scale: Brix as read, pH, g/L as tartaric acid. */
function figureOf(sample: SampleEntry, key: Figure): number | undefined {
  const facts = readSample(sample)
  return (key === 'brix' ? facts.reading : facts[key]?.mean) ?? undefined
}

/** The key under which a figure was typed. */
function keyOf(sample: SampleEntry, key: Figure): string {
  if (key === 'brix') return SUGARS.find((one) => sample[one] !== undefined) ?? key
  return key === 'ta' && sample.ta === undefined ? 'titration' : key
}

const SUGARS = ['brix', 'oechsle', 'baume', 'density'] as const

function steps(before: readonly SampleEntry[], sample: SampleEntry): Finding[] {
  const findings: Finding[] = []
  const judge = (key: Figure, tell: (change: number, days: number) => boolean) => {
    const last = before.findLast((one) => figureOf(one, key) !== undefined && one.date < sample.date)
    const now = figureOf(sample, key)
    if (!last || now === undefined) return
    const was = figureOf(last, key)!
    const days = daysBetween(last.date, sample.date)
    if (days > 45 || !tell(now - was, days)) return
    findings.push(
      odd(
        NAME,
        sample,
        [keyOf(sample, key)],
        `${key} went from ${say(was)} to ${say(now)} in ${days} d (${mention(last, [keyOf(last, key)])})`,
      ),
    )
  }
  judge(
    'brix',
    (change, days) => change <= -2 || (change <= -1 && days >= 14) || (change > 3 && change / days > 1),
  )
  judge('ph', (change, days) => Math.abs(change) > 0.4 && Math.abs(change) / days > 0.03)
  judge('ta', (change, days) => change > 3 || (change < -5 && -change / days > 1.2))
  return findings
}

/** Sugar of berries that have turned, Brix. */
const TURNED = 13

/** What the stages, the picks and the time of year say of a sample. */
function against({ ledger, asOf }: Book, sample: SampleEntry): Finding[] {
  const brix = figureOf(sample, 'brix')
  const mine = <T extends { block: string; season: number; date: string }>(list: readonly T[]) =>
    list.filter((one) => one.block === sample.block && one.season === sample.season && one.date <= asOf)
  const turned = mine(ledger.stages).find(({ stage }) => stage >= 81)
  const last = mine(ledger.picks).at(-1)
  const early =
    brix !== undefined && brix >= TURNED && turned !== undefined && daysBetween(sample.date, turned.date) > 7
  return [
    ...(outOfSeason(ledger.vineyard, sample.date, { first: 6, last: 12 })
      ? [
          odd(
            NAME,
            sample,
            ['date'],
            `no berries ripen on ${sample.date} at latitude ${ledger.vineyard.latitude}`,
          ),
        ]
      : early
        ? [
            odd(
              NAME,
              sample,
              ['date'],
              `${say(brix)} Brix on ${sample.date}, but ${sample.block} only began to ripen on ${turned.date} (${mention(turned, ['stage'])})`,
            ),
          ]
        : []),
    ...(last && last.date < sample.date && (last.rest ?? 0) === 0
      ? [
          odd(
            NAME,
            sample,
            ['date'],
            `sampled on ${sample.date}, after ${sample.block} was picked on ${last.date} (${mention(last, ['date'])})`,
          ),
        ]
      : []),
  ]
}

/** Samples by which a reading that stands out of its neighbours is told: Brix, pH, g/L. */
const STANDS_OUT = { brix: 3, ph: 0.3, ta: 2.5 } as const

/** A reading above both the sample before it and the one after, or below both, by more than samples scatter. */
function peaks(list: readonly SampleEntry[]): Finding[] {
  return (Object.keys(STANDS_OUT) as (keyof typeof STANDS_OUT)[]).flatMap((key) => {
    const read = list.filter((sample) => figureOf(sample, key) !== undefined)
    return read.slice(1, -1).flatMap((sample, index) => {
      const [before, after] = [read[index]!, read[index + 2]!]
      const [was, now, then] = [before, sample, after].map((one) => figureOf(one, key)!) as [
        number,
        number,
        number,
      ]
      const span = daysBetween(before.date, after.date)
      if (span > 30 || span === 0) return []
      const between = was + ((then - was) * daysBetween(before.date, sample.date)) / span
      const outside = now > Math.max(was, then) || now < Math.min(was, then)
      return outside && Math.abs(now - between) >= STANDS_OUT[key]
        ? [
            odd(
              NAME,
              sample,
              [keyOf(sample, key)],
              `${key} of ${say(now)} between ${say(was)} on ${before.date} and ${say(then)} on ${after.date} (${mention(after, [keyOf(after, key)])})`,
            ),
          ]
        : []
    })
  })
}
