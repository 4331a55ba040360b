import type { Book } from '../../facts/book.ts'
import { ripeningSeen } from '../../facts/ripeness/ripening.ts'
import { readSample } from '../../facts/ripeness/sample.ts'
import { say } from '../../facts/say.ts'
import type { Finding } from '../../ledger/read/finding.ts'
import type { SampleEntry } from '../../ledger/read/ledger.ts'
import { daysBetween } from '../../records/date.ts'
import { mention } from '../rule.ts'
import { outOfSeason } from './northern-month.ts'
import { odd } from './usual.ts'

const NAME = 'unlikely-sample'

type Figure = 'brix' | 'ph' | 'ta'

/** The figures as the trade says them. */
const CALLED: Record<Figure, string> = { brix: 'sugar in Brix', ph: 'pH', ta: 'acidity in g/L' }

/** A figure of a sample on one scale: Brix as read, pH, g/L as tartaric acid. */
function figureOf(sample: SampleEntry, key: Figure): number | undefined {
  const facts = readSample(sample)
  return (key === 'brix' ? facts.reading : facts[key]?.mean) ?? undefined
}

/** The key under which a figure was typed. */
export function keyOf(sample: SampleEntry, key: Figure): string {
  if (key === 'brix') return SUGARS.find((one) => sample[one] !== undefined) ?? key
  return key === 'ta' && sample.ta === undefined ? 'titration' : key
}

const SUGARS = ['brix', 'oechsle', 'baume', 'density'] as const

/** Sugar, acid or pH that went from the last sample of an earlier day as ripening does not take them. */
export function steps(list: readonly SampleEntry[], sample: SampleEntry): Finding[] {
  const findings: Finding[] = []
  const judge = (key: Figure, tell: (change: number, days: number) => boolean) => {
    const last = list.findLast((one) => figureOf(one, key) !== undefined && one.date < sample.date)
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
        `${CALLED[key]} went from ${say(was)} to ${say(now)} in ${days} d (${mention(last, [keyOf(last, key)])})`,
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
export function against(book: Book, sample: SampleEntry): Finding[] {
  const { ledger, asOf } = book
  const brix = figureOf(sample, 'brix')
  const turned = ripeningSeen(book, sample)
  const last = ledger.picks.findLast(
    (one) => one.block === sample.block && one.season === sample.season && one.date <= asOf,
  )
  const early =
    brix !== undefined &&
    brix >= TURNED &&
    turned !== undefined &&
    turned.stage < 85 &&
    daysBetween(sample.date, turned.date) > 7
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
export function peaks(list: readonly SampleEntry[]): Finding[] {
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
              `${CALLED[key]} is ${say(now)}, but ${say(was)} on ${before.date} and ${say(then)} on ${after.date} (${mention(after, [keyOf(after, key)])})`,
            ),
          ]
        : []
    })
  })
}
