import { NO_WARMTH, warmthOf } from '../../agronomy/ripening/warmth.ts'
import { highest } from '../../agronomy/statistics/extremes.ts'
import type { Ledger, Named } from '../../ledger/read/ledger.ts'
import { dayOf, type IsoDate, isoDate } from '../../records/date.ts'
import type { Block } from '../../records/kinds/block.ts'
import { shortDate } from '../../records/spoken-date.ts'
import type { ReportInput } from '../report.ts'
import { biasError, pressBias } from '../ripeness/press-bias.ts'
import { type BlockSample, brixByDay, samplesOf } from '../ripeness/samples.ts'
import { targetOf } from '../ripeness/targets.ts'
import { legalFrom, spraysOf } from '../spraying/legal-from.ts'
import { overLabelSentence } from '../spraying/over-label.ts'
import { type AcidWindow, acidWindow } from './acid-window.ts'
import { conflictsOf } from './conflicts.ts'
import { expectedColour } from './expected-veraison.ts'
import { learnedOf } from './past.ts'
import { colourReading, sugarReadings } from './readings.ts'
import { HORIZON, type SugarWindow, sugarWindow } from './sugar-window.ts'
import { type DayMeans, meansBetween } from './temperatures.ts'
import { type Use, usesOf } from './uses.ts'
import { type HalfColour, halfColourOf } from './veraison.ts'

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

export interface BlockWindow {
  block: string
  /** Brix; null where neither the option, the block nor the variety names one. */
  target: number | null
  targetSource: string | null
  /** The probability, 0 to 1, that the block's mean has reached the target by each day. */
  chance: { date: IsoDate; share: number }[]
  /** Days on which the chance reaches 5, 50 and 95 %; null where it doesn't within 60 days of the report. */
  earliest: IsoDate | null
  likely: IsoDate | null
  latest: IsoDate | null
  /** True where the latest day is open: the target may not be reached within those days. */
  open: boolean
  /** Chance on the day of the report. */
  today: number | null
  /** Current rate, Brix a day. */
  rate: number | null
  /** What the answer is based on. */
  uses: Use[]
  /** Past seasons used: the block's, else its variety's. */
  learnedFrom: number[]
  next_sample: { date: IsoDate; berries: number; narrows_days: number } | null
  /** When acid and pH come into their ranges; needs three days with measurements. */
  acid: AcidWindow | null
  ph: AcidWindow | null
  /** Why there is no window. */
  why: string | null
  /** First day on which the pre-harvest intervals allow picking, by the cautious reading; null where no spray has one. */
  legalFrom: IsoDate | null
  /** The same, counting the day of spraying as day 0. */
  legalFromCalendar: IsoDate | null
  /** A sentence on uses over the label that nobody cleared, so that no day of picking is known; else null. */
  overLabel: string | null
  conflicts: string[]
  /** Mean Brix of the last sampling day, and the uncertainty of its temperature correction. */
  lastSample: { date: IsoDate; brix: number; open: string | null } | null
  /** 50 % veraison, where noted. */
  veraison: IsoDate | null
  picked: IsoDate | null
  /** Field-to-press difference added to the samples, Brix; null where not asked for. */
  pressBias: { brix: number | null; picks: number; why: string | null } | null
}

/** Days of weather before the first reading used for the usual temperature. */
const WEATHER_BEFORE = 60

function lastSampleOf(samples: readonly BlockSample[]): BlockWindow['lastSample'] {
  const last = brixByDay(samples).at(-1)
  if (!last) return null
  const found = samples.find(({ entry, facts }) => entry.date === last.date && facts.open !== null)
  return { ...last, open: found?.facts.open ?? null }
}

/**
 * The window of one block, from what was known on the day of the report. Dates, acid, pH and the next sample are
 * calculated on demand, since most reports need a date or two.
 */
export function windowOf(
  block: Named<Block>,
  input: Omit<ReportInput, 'blocks'>,
  options: WindowOptions = {},
): BlockWindow {
  const { ledger, season, asOf } = input
  const named = targetOf(ledger, block, 'brix')
  const target = options.target ?? named?.low ?? null
  const legal = legalFrom(ledger, spraysOf(ledger, { block: block.id, season, asOf }))
  const samples = samplesOf(ledger, { block: block.id, season, asOf })
  const halfColour = halfColourOf(ledger, { block: block.id, season, asOf })
  const pressed = options.asPressed ? pressBias(ledger, asOf) : null
  const bias = pressed?.mean ?? 0
  const picked = ledger.picks.find(
    (pick) => pick.block === block.id && pick.season === season && pick.date <= asOf,
  )
  const base = {
    block: block.id,
    target,
    targetSource: options.target === undefined ? (named?.source ?? null) : 'as asked',
    legalFrom: legal.date,
    legalFromCalendar: legal.calendar,
    overLabel: legal.overLabel.length > 0 ? overLabelSentence(legal.overLabel) : null,
    lastSample: lastSampleOf(samples),
    veraison: halfColour && isoDate(Math.round(halfColour.day)),
    picked: picked?.date ?? null,
    pressBias: pressed && { brix: pressed.mean, picks: pressed.picks.length, why: pressed.why },
  }
  const warmth = warmthIn(ledger, { season, asOf, forecast: options.forecast })
  const today = dayOf(asOf)
  const acids: Partial<Record<'ta' | 'ph', AcidWindow | null>> = {}
  const acid = (of: 'ta' | 'ph') => {
    acids[of] ??= acidWindow(ledger, block, { of, samples, warmth: warmth.of, until: today + HORIZON })
    return acids[of]
  }
  const noted = sugarReadings(samples, { halfColour, bias })
  const expected = noted.length > 0 || !options.expected ? null : expectedColour(input, block.id)
  const readings = expected ? [colourReading(expected)] : noted
  const untold = (why: string): BlockWindow => {
    const conflicts = conflictsOf(ledger, { window: null, legal })
    return { ...base, acid: acid('ta'), ph: acid('ph'), ...UNTOLD, why, conflicts }
  }
  if (target === null)
    return untold(
      `no target: write \`targets: { brix: 20-22 }\` in blocks/${block.id}.yaml, or ask with --target brix=20`,
    )
  if (readings.length === 0) return untold('no sample with sugar yet, and veraison is not noted')
  const learned = learnedOf(ledger, block, season)
  const window = sugarWindow(readings, {
    prior: learned.prior,
    warmth: warmth.of,
    target,
    today,
    shift: biasError(pressed),
  })
  // Chances begin on the expected day, which may lie behind the horizon.
  if (expected && expected.day - expected.within > today && (window.earliest ?? Infinity) > today + HORIZON)
    return untold(whyUntold(expected))
  // All are getters: V8 puts plain values that follow a spread before getters, and this order is printed.
  return {
    ...base,
    get acid() {
      return acid('ta')
    },
    get ph() {
      return acid('ph')
    },
    get chance() {
      return chanceByDay(window)
    },
    get earliest() {
      return dateOf(window.earliest)
    },
    get likely() {
      return dateOf(window.likely)
    },
    get latest() {
      return dateOf(window.latest)
    },
    get open() {
      return window.latest === null
    },
    get today() {
      return window.today
    },
    get rate() {
      return window.rate
    },
    get uses() {
      return usesOf({
        samples,
        bias,
        learned,
        isWeatherKnown: warmth.isKnown,
        isForecastUsed: warmth.isForetold,
        colour: readings.some(({ sampled }) => !sampled) ? (expected ?? halfColour)!.by : null,
      })
    },
    get learnedFrom() {
      return learned.own.length > 0 ? learned.own : [...new Set(learned.variety)]
    },
    get next_sample() {
      return picked ? null : nextIn(window)
    },
    get why() {
      return null
    },
    get conflicts() {
      return conflictsOf(ledger, { window, legal })
    },
  }
}

function whyUntold({ day, within }: HalfColour): string {
  const [from, to] = [Math.round(day - within), Math.round(day + within)]
  return `no sample with sugar yet; 50 % veraison is expected from ${shortDate(isoDate(from))} to ${shortDate(isoDate(to))}`
}

const UNTOLD = {
  chance: [],
  earliest: null,
  likely: null,
  latest: null,
  open: false,
  today: null,
  rate: null,
  uses: [],
  learnedFrom: [],
  next_sample: null,
}

/** Temperatures from the season's weather up to a day and the forecast after it, and which of the two there is. */
function warmthIn(
  ledger: Ledger,
  { season, asOf, forecast }: { season: number; asOf: IsoDate; forecast: DayMeans | undefined },
) {
  const today = dayOf(asOf)
  const known = meansBetween(ledger, { season, from: today - WEATHER_BEFORE, to: today })
  const last = highest(known.keys())
  const ahead = new Map([...(forecast ?? [])].filter(([day]) => day > last))
  const of = known.size === 0 ? NO_WARMTH : warmthOf(new Map([...known, ...ahead]), last)
  const isKnown = of(last) !== undefined
  return { of, isKnown, isForetold: isKnown && ahead.size > 0 }
}

const dateOf = (day: number | null): IsoDate | null => (day === null ? null : isoDate(day))

const chanceByDay = ({ curve }: SugarWindow): BlockWindow['chance'] =>
  Array.from({ length: curve.length }, (_, at) => ({
    date: isoDate(curve.from + at),
    // Rounded down, so that 0.05 first appears on the earliest day.
    share: Math.floor(1000 * curve.on(at)) / 1000,
  }))

function nextIn({ next }: SugarWindow): BlockWindow['next_sample'] {
  if (!next) return null
  const { day, berries, narrowsDays } = next
  return { date: isoDate(day), berries, narrows_days: Math.round(10 * narrowsDays) / 10 }
}
