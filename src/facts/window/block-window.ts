import { seasonOf } from '../../agronomy/ripening/chance-curve.ts'
import type { Ledger, Named } from '../../ledger/read/ledger.ts'
import { dayOf, isoDate } from '../../records/date.ts'
import { atFirstUse } from '../../records/fields/field.ts'
import type { Block } from '../../records/kinds/block.ts'
import { shortDate, spokenDate } from '../../records/spoken-date.ts'
import { entriesOf } from '../block-entries.ts'
import { inPartText, shareHanging } from '../hanging.ts'
import { productNames } from '../names.ts'
import { onDemand } from '../on-demand.ts'
import type { ReportInput } from '../report.ts'
import { biasError, pressBias } from '../ripeness/press-bias.ts'
import { sampleDays } from '../ripeness/sample-day.ts'
import { type BlockSample, samplesOf } from '../ripeness/samples.ts'
import { targetOf } from '../ripeness/targets.ts'
import { figureText } from '../sentences.ts'
import { clearedText } from '../spraying/clearance.ts'
import { type LegalFrom, legalFrom, spraysOf, unknownIntervalText } from '../spraying/legal-from.ts'
import { overLabelSentence } from '../spraying/over-label.ts'
import { acidWindow } from './acid-window.ts'
import { learnedOf } from './past.ts'
import { colourReading, riperBefore, sugarReadings } from './readings.ts'
import { dateOf, HORIZON, nextSample, type TargetDays, targetDays } from './target-days.ts'
import { type DayMeans, warmthIn } from './temperatures.ts'
import { usesOf } from './uses.ts'
import { expectedColour, type HalfColour, halfColourOf } from './veraison.ts'

export interface WindowOptions {
  /** Brix to reach instead of the low end of the block's target range. */
  target?: number | undefined
  /** Daily means forecast, °C, by day number. */
  forecast?: DayMeans | undefined
  /** Adds the mean field-to-press difference of past picks to the samples. */
  asPressed?: boolean | undefined
  /** Gives a rough answer where neither a sample nor veraison is noted; never where a spray or a pick depends on it. */
  expected?: boolean | undefined
}

/** Chance from which the target counts as reached, and no more samples are suggested. */
export const REACHED = 0.95

export type BlockWindow = ReturnType<typeof windowOf>

/**
 * The window of one block, from what was known on the day of the report. Its figures are calculated when they are read,
 * since most reports need a date or two.
 */
export function windowOf(
  block: Named<Block>,
  input: Omit<ReportInput, 'blocks'>,
  options: WindowOptions = {},
) {
  const { ledger, season, asOf } = input
  const of = { block: block.id, season, asOf }
  const today = dayOf(asOf)
  const named = targetOf(ledger, block, 'brix')
  const target = options.target ?? named?.low ?? null
  const legal = legalFrom(ledger, spraysOf(ledger, of))
  const samples = samplesOf(ledger, of)
  const stated = halfColourOf(ledger, of)
  const riper = stated && riperBefore(samples, stated)
  const halfColour = riper ? null : stated
  const pressed = options.asPressed ? pressBias(ledger, asOf) : null
  const bias = pressed?.mean ?? 0
  const picked = shareHanging(ledger, of) > 0 ? null : entriesOf(ledger.picks, of).at(-1)!.date
  const warmth = warmthIn(ledger, { season, asOf, forecast: options.forecast })
  const acid = (acid: 'ta' | 'ph') =>
    acidWindow(ledger, block, { of: acid, samples, warmth: warmth.of, today })

  const noted = sugarReadings(samples, { halfColour, bias })
  const expected = noted.length > 0 || !options.expected ? null : expectedColour(input, block.id)
  const readings = expected ? [colourReading(expected)] : noted
  const learned = atFirstUse(() => learnedOf(ledger, block, season))
  const sugar =
    target === null || readings.length === 0 ? null : seasonOf(readings, learned().prior, warmth.of)
  const days = sugar && targetDays(sugar, { target: target!, today, shift: biasError(pressed) })
  const why =
    target === null
      ? `no target: write \`targets: { brix: 20-22 }\` in blocks/${block.id}.yaml, or ask with --target brix=20`
      : days === null
        ? 'no sample with sugar yet, and veraison is not noted'
        : expected && isFar(expected, days, today)
          ? whyFar(expected)
          : null
  const window = why === null ? days : null

  return onDemand({
    block: () => block.id,
    /** Brix; null where neither the option, the block nor the variety names one. */
    target: () => target,
    targetSource: () => (options.target === undefined ? (named?.source ?? null) : 'as asked'),
    /** First day on which the pre-harvest intervals allow picking, by the cautious reading; null where no spray has one. */
    legalFrom: () => legal.date,
    /** The same, counting the day of spraying as day 0. */
    legalFromCalendar: () => legal.calendar,
    /** A sentence on uses over the label that nobody cleared, so that no day of picking is known; else null. */
    overLabel: () => (legal.overLabel.length > 0 ? overLabelSentence(legal.overLabel) : null),
    /** Brix of the last sampling day, its samples as in `ripeness`, and the uncertainty of its temperature correction. */
    lastSample: () => lastSampleOf(samples),
    /** 50 % veraison, where noted and not contradicted by a sample. */
    veraison: () => halfColour && isoDate(Math.round(halfColour.day)),
    /** Day of the last pick; null where nothing was picked, or part of the block still hangs. */
    picked: () => picked,
    /** Field-to-press difference added to the samples, Brix; null where not asked for. */
    pressBias: () => pressed && { brix: pressed.mean, picks: pressed.picks.length, why: pressed.why },
    /** When acid and pH come into their ranges; needs three days with measurements. */
    acid: () => acid('ta'),
    ph: () => acid('ph'),
    /** The probability, 0 to 1, that the block's mean has reached the target by each day. */
    chance: () => (window ? chanceByDay(window) : []),
    /** Days on which the chance reaches 5, 50 and 95 %; null where it doesn't within 60 days of the report. */
    earliest: () => dateOf(window?.earliest),
    likely: () => dateOf(window?.likely),
    latest: () => dateOf(window?.latest),
    /** True where the latest day is open: the target may not be reached within those days. */
    open: () => window !== null && window.latest === null,
    /** Chance on the day of the report. */
    today: () => window?.today ?? null,
    /** Current rate, Brix a day: the mean of the posterior. */
    rate: () =>
      window &&
      sugar!.believed.reduce(
        (sum, { share, slowing, state }) => sum + share * (state.rate - slowing * state.level + state.swing),
        0,
      ),
    /** What the answer is based on. */
    uses: () => {
      const colour = readings.some(({ sampled }) => !sampled) ? (expected ?? halfColour)!.by : null
      return window ? usesOf({ samples, bias, learned: learned(), warmth, colour }) : []
    },
    /** Past seasons used: the block's, else its variety's. */
    learnedFrom: () => (window ? learned().seasons : []),
    next_sample: () =>
      window && picked === null && window.today < REACHED ? nextSample(sugar!, window, today) : null,
    /** Why there is no window. */
    why: () => why,
    /** What conflicts with the window, in sentences. */
    conflicts: () =>
      [
        inPartText(ledger, of) ?? [],
        riper ? riperText(riper, stated!) : [],
        conflictsOf(ledger, { window, legal }),
      ].flat(),
  })
}

function lastSampleOf(samples: readonly BlockSample[]) {
  const last = sampleDays(samples, 'brix').at(-1)
  if (!last) return null
  const { date, mean, samples: own, of, aside } = last
  const found = own.find(({ sample }) => sample.facts.open !== null)
  return { date, brix: mean, of, aside, open: found?.sample.facts.open ?? null }
}

/** Chances begin on the day that is expected, which may lie behind the horizon. */
const isFar = ({ day, within }: HalfColour, { earliest }: TargetDays, today: number) =>
  day - within > today && (earliest ?? Infinity) > today + HORIZON

function whyFar({ day, within }: HalfColour): string {
  const [from, to] = [day - within, day + within].map((end) => shortDate(isoDate(Math.round(end))))
  return `no sample with sugar yet; 50 % veraison is expected from ${from} to ${to}`
}

const chanceByDay = ({ curve }: TargetDays) =>
  Array.from({ length: curve.length }, (_, at) => ({
    date: isoDate(curve.from + at),
    // Rounded down, so that 0.05 first appears on the earliest day.
    share: Math.floor(1000 * curve.on(at)) / 1000,
  }))

const riperText = ({ entry, facts }: BlockSample, { day }: HalfColour) =>
  `${figureText(facts.brix!.mean, 'Brix')} on ${shortDate(entry.date)} is riper than 50 % veraison, noted for about ${shortDate(isoDate(Math.round(day)))}: the window goes by the samples alone. Check both entries.`

function conflictsOf(
  ledger: Ledger,
  { window, legal }: { window: TargetDays | null; legal: LegalFrom },
): string[] {
  const lines: string[] = []
  if (legal.overLabel.length > 0) lines.push(overLabelSentence(legal.overLabel))
  if (legal.unknown.length > 0) lines.push(unknownIntervalText(productNames(ledger, legal.unknown)))
  if (window === null || legal.date === null || legal.by === null) return lines
  const from = dayOf(legal.date)
  const by = legal.by.cleared ? `, ${clearedText(legal.by.cleared)}` : ''
  const why = `${legal.by.name} (sprayed ${spokenDate(legal.by.sprayed)}${by}) allows picking only from ${spokenDate(legal.date)}`
  if (window.latest !== null && window.latest < from)
    lines.push(`${why}; the window closes on ${spokenDate(isoDate(window.latest))}.`)
  else if (window.likely !== null && window.likely < from)
    lines.push(`${why}; the likely day is ${spokenDate(isoDate(window.likely))}.`)
  return lines
}
