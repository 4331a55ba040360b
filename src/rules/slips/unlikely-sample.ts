import { median } from '../../agronomy/statistics/median.ts'
import { countBefore, groupedBy, inSeason, judged, seasonKey } from '../../facts/judged.ts'
import { ripeningSeen } from '../../facts/ripeness/ripening.ts'
import { readSample } from '../../facts/ripeness/sample.ts'
import { figureText } from '../../facts/sentences.ts'
import type { PickEntry, SampleEntry, StageEntry } from '../../ledger/read/ledger.ts'
import { daysBetween } from '../../records/date.ts'
import type { Vineyard } from '../../records/kinds/vineyard.ts'
import { longDate } from '../../records/spoken-date.ts'
import { blockName, type Found, findingAt, mention, type Rule } from '../rule.ts'
import { outOfSeason, type Slips, SWAPPED, slipsIn, type Usual } from './usual.ts'

/** A berry sample whose figures no grapes have, or that doesn't fit the one before. */
export const unlikelySample: Rule = {
  name: 'unlikely-sample',
  what: 'Sugar, acid, pH, berries or weight of a sample are outside the range of grapes. Or one reading is far from the others. Or sugar, acid or pH changed more than ripening does, or differs from the samples before and after. Or no ripening berries hang on that date.',
  limits:
    'Usual are: 3 to 30 Brix; pH 2.6 to 4.1; acid 3 to 35 g/L; 5 to 600 berries; 0.3 to 4 g a berry. From one sample to the next, too much is: sugar down by 2 Brix, or by 1 in a fortnight; sugar up by more than 3 Brix at 1 Brix a day or more; pH by 0.4; acid up by more than 2 g/L; acid down by more than 5 g/L at 1.2 g/L a day or more. From 14 g/L or less, more than 2.5 g/L at over 5 % of itself a day is too much. That is counted over at least 5 days. Beside both neighbours, too much is 3 Brix, pH 0.3 or 2.5 g/L.',
  source: 'own rule; levels common practice, no source',
  basis: 'common practice',
  check: (input) => {
    const { vineyard } = input.ledger
    const samples = judged(input, 'samples')
    const ripening = ripeningSeen(input)
    const picks = inSeason(input, input.ledger.picks)
    return [
      ...slipsIn(samples, (slips, sample) => {
        levels(slips, sample)
        const name = blockName(input, sample.block)
        dated(slips, sample, { vineyard, name, turned: ripening(sample), last: picks(sample).at(-1) })
      }),
      ...[...groupedBy(samples, seasonKey).values()].flatMap((list) =>
        (['brix', 'ph', 'ta'] as const).flatMap((key) => course(key, list)),
      ),
    ]
  },
}

/** What each reading is called, its usual range, and how far it may lie from the others of a sample. */
const READINGS = [
  { key: 'brix', usual: ['sugar in Brix', 3, 30, ''], apart: 8 },
  { key: 'oechsle', usual: ['sugar in Oechsle', 15, 135, ''], apart: 35 },
  { key: 'baume', usual: ['sugar in Baumé', 2, 17, ''], apart: 5 },
  { key: 'density', usual: ['specific gravity', 1.01, 1.135, ''], apart: 0.035 },
  { key: 'ph', usual: ['pH', 2.6, 4.1, ''], apart: 0.6 },
  { key: 'ta', usual: ['acidity', 3, 35, 'g/L'], apart: 8 },
] as const

const USUAL: Usual = {
  berries: ['number of berries', 5, 600],
  berry_weight: ['weight of a berry', 0.3, 4, 'g'],
  temperature: ['temperature of juice', 4, 40, '°C'],
}

function levels(slips: Slips, sample: SampleEntry): void {
  for (const { key, usual, apart } of READINGS) {
    const values = sample[key] ?? []
    const before = slips.found.length
    slips.compare({ [key]: usual })
    if (values.length < 3 || slips.found.length > before) continue
    const middle = median(values)!
    for (const [index, value] of values.entries())
      if (isFar(value, { values, middle, apart }))
        slips.odd(
          [key, index],
          `${figureText(value, usual[3])} is far from the other readings (about ${figureText(middle, usual[3])})`,
          "check this reading's decimal point; if it is right, measure again",
        )
  }
  slips.compare(USUAL)
}

/** Whether one reading lies far from the middle of the others: by a fixed step, or where they lie close by far less. */
function isFar(value: number, of: { values: readonly number[]; middle: number; apart: number }): boolean {
  const off = Math.abs(value - of.middle)
  const scatter = median(of.values.map((one) => Math.abs(one - of.middle)))!
  return off > of.apart || (of.values.length >= 5 && off > of.apart * 0.6 && off > 6 * scatter)
}

/** Sugar of berries that have turned, Brix. */
const TURNED = 13

/** Compares the date of a sample with the time of year, and with the stages and picks of its block and season. */
function dated(
  slips: Slips,
  sample: SampleEntry,
  known: { vineyard: Vineyard; name: string; turned: StageEntry | undefined; last: PickEntry | undefined },
): void {
  const { vineyard, name, turned, last } = known
  const { date } = sample
  const brix = figureOf(sample, 'brix') ?? 0
  if (outOfSeason(vineyard, date, [6, 12]))
    slips.odd(['date'], `no berries ripen on ${longDate(date)} at latitude ${vineyard.latitude}`, SWAPPED)
  else if (brix >= TURNED && turned && turned.stage < 85 && daysBetween(date, turned.date) > 7)
    slips.odd(
      ['date'],
      `${figureText(brix)} Brix on ${longDate(date)}, but ${name} only began to ripen on ${longDate(turned.date)} (${mention(turned, ['stage'])})`,
      'check the date of the sample and its sugar, then the stage',
    )
  if (last && last.date < date && (last.rest ?? 0) === 0)
    slips.odd(
      ['date'],
      `sampled on ${longDate(date)}, after ${name} was picked on ${longDate(last.date)} (${mention(last, ['date'])})`,
      'check the date and the block; if grapes were left, write `rest` into the pick',
    )
}

/**
 * Acid falling by a larger share a day than this, from at most this level, is probably on another scale; over fewer
 * days samples scatter too much.
 */
const ACID_FALL = { aDay: 0.05, from: 14, days: 5 }

/**
 * Figures of a sample on one scale (Brix as read, pH, g/L as tartaric acid): their trade names, the distance from both
 * neighbours at which a reading is reported, and whether one changed more than ripening allows in the days since.
 */
const COURSE = {
  brix: {
    called: 'sugar in Brix',
    standsOut: 3,
    tooFar: (change: number, days: number) =>
      change <= -2 || (change <= -1 && days >= 14) || (change > 3 && change / days > 1),
  },
  ph: {
    called: 'pH',
    standsOut: 0.3,
    tooFar: (change: number, days: number) => Math.abs(change) > 0.4 && Math.abs(change) / days > 0.03,
  },
  ta: {
    called: 'acidity in g/L',
    standsOut: 2.5,
    tooFar: (change: number, days: number, from: number) =>
      change > 2 ||
      (change < -5 && -change / days > 1.2) ||
      (change < -2.5 &&
        from <= ACID_FALL.from &&
        Math.log(from / (from + change)) / Math.max(days, ACID_FALL.days) > ACID_FALL.aDay),
  },
}
type Figure = keyof typeof COURSE

function figureOf(sample: SampleEntry, key: Figure): number | undefined {
  const facts = readSample(sample)
  return (key === 'brix' ? facts.reading : facts[key]?.mean) ?? undefined
}

/** The key under which a figure was typed. */
export function keyOf(sample: SampleEntry, key: Figure): string {
  if (key === 'brix')
    return (['brix', 'oechsle', 'baume', 'density'] as const).find((one) => sample[one]) ?? key
  return key === 'ta' && sample.ta === undefined ? 'titration' : key
}

/** A figure that changed since the last sample of an earlier day as ripening can't, or lies off both neighbours. */
function course(key: Figure, list: readonly SampleEntry[]): Found[] {
  const { called, standsOut, tooFar } = COURSE[key]
  const read = list.flatMap((sample) => {
    const value = figureOf(sample, key)
    return value === undefined ? [] : { sample, value, date: sample.date, path: [keyOf(sample, key)] }
  })
  return read.flatMap(({ sample, value, date, path }, index) => {
    const found: Found[] = []
    const last = read[countBefore(read, date, (one) => one.date) - 1]
    const days = last ? daysBetween(last.date, date) : Infinity
    if (last && days <= 45 && tooFar(value - last.value, days, last.value))
      found.push(
        findingAt(sample, path, {
          message: `${called} went from ${figureText(last.value)} to ${figureText(value)} in ${days} d (${mention(last.sample, last.path)})`,
          help: 'check the figure, its unit, the date and the block; if it is right, sample again',
        }),
      )
    const [before, after] = [read[index - 1], read[index + 1]]
    if (!before || !after) return found
    const [was, then] = [before.value, after.value]
    const span = daysBetween(before.date, after.date)
    const between = was + ((then - was) * daysBetween(before.date, date)) / span
    const outside = value > Math.max(was, then) || value < Math.min(was, then)
    if (span > 0 && span <= 30 && outside && Math.abs(value - between) >= standsOut)
      found.push(
        findingAt(sample, path, {
          message: `${called} is ${figureText(value)}, but ${figureText(was)} on ${longDate(before.date)} and ${figureText(then)} on ${longDate(after.date)} (${mention(after.sample, after.path)})`,
          help: "check the figure and its decimal point, and whether it was another block's sample",
        }),
      )
    return found
  })
}
