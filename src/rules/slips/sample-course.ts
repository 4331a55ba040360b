import { inSeason, type JudgedLedger } from '../../facts/judged.ts'
import { type RipeningSeen, ripeningSeen } from '../../facts/ripeness/ripening.ts'
import { readSample } from '../../facts/ripeness/sample.ts'
import { figureText } from '../../facts/sentences.ts'
import type { Ledger, PickEntry, SampleEntry, StageEntry } from '../../ledger/read/ledger.ts'
import type { Path } from '../../ledger/read/source.ts'
import { daysBetween } from '../../records/date.ts'
import { longDate } from '../../records/spoken-date.ts'
import { blockName, type Found, mention } from '../rule.ts'
import { outOfSeason, slipsOf } from './usual.ts'

const odd = (sample: SampleEntry, path: Path, message: string, help: string): Found[] => {
  const slips = slipsOf(sample)
  slips.odd(path, message, help)
  return slips.found
}

type Figure = 'brix' | 'ph' | 'ta'

/** Trade names of the figures. */
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

/**
 * Acid falling by a larger share a day than this, from at most this level, is probably on another scale; over fewer
 * days samples scatter too much.
 */
const ACID_FALL = { aDay: 0.05, from: 14, days: 5 }

/** Whether a figure changed more than ripening allows in the days since. */
const TOO_FAR: Record<Figure, (change: number, days: number, from: number) => boolean> = {
  brix: (change, days) => change <= -2 || (change <= -1 && days >= 14) || (change > 3 && change / days > 1),
  ph: (change, days) => Math.abs(change) > 0.4 && Math.abs(change) / days > 0.03,
  ta: (change, days, from) =>
    change > 2 ||
    (change < -5 && -change / days > 1.2) ||
    (change < -2.5 &&
      from <= ACID_FALL.from &&
      Math.log(from / (from + change)) / Math.max(days, ACID_FALL.days) > ACID_FALL.aDay),
}

/** Sugar, acid or pH that changed since the last sample of an earlier day as ripening can't. */
export const steps = (list: readonly SampleEntry[]): Found[] =>
  (Object.keys(TOO_FAR) as Figure[]).flatMap((key) => {
    const read = list.flatMap((sample) => {
      const value = figureOf(sample, key)
      return value === undefined ? [] : [{ sample, value }]
    })
    // The list is in date order, so the last sample of an earlier day only moves forward.
    let earlier = -1
    return read.flatMap(({ sample, value }) => {
      while (read[earlier + 1]!.sample.date < sample.date) earlier += 1
      const last = read[earlier]
      if (!last) return []
      const days = daysBetween(last.sample.date, sample.date)
      if (days > 45 || !TOO_FAR[key](value - last.value, days, last.value)) return []
      const where = mention(last.sample, [keyOf(last.sample, key)])
      const message = `${CALLED[key]} went from ${figureText(last.value)} to ${figureText(value)} in ${days} d (${where})`
      const help = 'check the figure, its unit, the date and the block; if it is right, sample again'
      return odd(sample, [keyOf(sample, key)], message, help)
    })
  })

/** Sugar of berries that have turned, Brix. */
const TURNED = 13

/** Compares a block's samples in a season with its stages, its picks and the time of year. */
export function against({ ledger, ripening, picks }: Known, list: readonly SampleEntry[]): Found[] {
  const [turned, last] = [ripening(list[0]!), picks(list[0]!).at(-1)]
  return list.flatMap((sample) => againstOne(ledger, sample, { turned, last }))
}

/** Records to compare samples with, by block and season. */
interface Known {
  ledger: Ledger
  ripening: RipeningSeen
  picks: (of: SampleEntry) => readonly PickEntry[]
}

export const knownOf = (input: JudgedLedger): Known => ({
  ledger: input.ledger,
  ripening: ripeningSeen(input),
  picks: inSeason(input, input.ledger.picks),
})

function againstOne(
  ledger: Ledger,
  sample: SampleEntry,
  { turned, last }: { turned: StageEntry | undefined; last: PickEntry | undefined },
): Found[] {
  const brix = figureOf(sample, 'brix')
  const early =
    brix !== undefined &&
    brix >= TURNED &&
    turned !== undefined &&
    turned.stage < 85 &&
    daysBetween(sample.date, turned.date) > 7
  const slips = slipsOf(sample)
  const name = blockName({ ledger }, sample.block)
  if (outOfSeason(ledger.vineyard, sample.date, { first: 6, last: 12 }))
    slips.odd(
      ['date'],
      `no berries ripen on ${longDate(sample.date)} at latitude ${ledger.vineyard.latitude}`,
      'check the date; day and month may be swapped',
    )
  else if (early)
    slips.odd(
      ['date'],
      `${figureText(brix)} Brix on ${longDate(sample.date)}, but ${name} only began to ripen on ${longDate(turned.date)} (${mention(turned, ['stage'])})`,
      'check the date of the sample and its sugar, then the stage',
    )
  if (last && last.date < sample.date && (last.rest ?? 0) === 0)
    slips.odd(
      ['date'],
      `sampled on ${longDate(sample.date)}, after ${name} was picked on ${longDate(last.date)} (${mention(last, ['date'])})`,
      'check the date and the block; if grapes were left, write `rest` into the pick',
    )
  return slips.found
}

/** Distance from both neighbours at which a reading is reported: Brix, pH, g/L. */
const STANDS_OUT = { brix: 3, ph: 0.3, ta: 2.5 } as const

/** A reading above both the sample before it and the one after, or below both, by more than samples scatter. */
export function peaks(list: readonly SampleEntry[]): Found[] {
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
      if (!outside || Math.abs(now - between) < STANDS_OUT[key]) return []
      const message = `${CALLED[key]} is ${figureText(now)}, but ${figureText(was)} on ${longDate(before.date)} and ${figureText(then)} on ${longDate(after.date)} (${mention(after, [keyOf(after, key)])})`
      const help = "check the figure and its decimal point, and whether it was another block's sample"
      return odd(sample, [keyOf(sample, key)], message, help)
    })
  })
}
