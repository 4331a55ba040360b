import { bloomBy, veraisonAfter } from '../../src/agronomy/heat/bloom-timing.ts'
import { learn, lessonOf } from '../../src/agronomy/ripening/past-seasons.ts'
import { believe } from '../../src/agronomy/ripening/ripening-model.ts'
import { type RipeningPrior, SUGAR } from '../../src/agronomy/ripening/ripening-prior.ts'
import { veraisonDay } from '../../src/agronomy/ripening/veraison-day.ts'
import { NO_WARMTH, warmthOf } from '../../src/agronomy/ripening/warmth.ts'
import { readSample } from '../../src/facts/ripeness/sample.ts'
import { colourReading, sugarReadings } from '../../src/facts/window/readings.ts'
import { sugarWindow } from '../../src/facts/window/sugar-window.ts'
import type { HalfColour } from '../../src/facts/window/veraison.ts'
import type { SampleEntry } from '../../src/ledger/read/ledger.ts'
import { isoDate } from '../../src/records/date.ts'
import type { Answer } from './score.ts'
import type { SimulatedBlock, SimulatedSeason } from './season.ts'

/** What is known beside samples and their berries. */
export interface Known {
  flowering?: boolean
  veraison?: boolean
  weather?: boolean
  /** Weather of the week to come. */
  forecast?: boolean
  /** Whether the berries of samples are written. */
  berriesWritten?: false
  past?: boolean
}

/** What the window would say of a simulated block on a day, by the code that `window` runs. */
export function ask({ season, past, target }: SimulatedBlock, today: number, known: Known): Answer {
  const readings = readingsOf(season, today, known)
  if (readings.length === 0) return { earliest: null, likely: null, latest: null }
  const means = new Map(season.temperatures.map((mean, day) => [day, mean] as const))
  const seen = new Map([...means].filter(([day]) => day <= today + (known.forecast ? 7 : 0)))
  return sugarWindow(readings, {
    prior: known.past ? learnedFrom(past) : SUGAR,
    warmth: known.weather ? warmthOf(seen, today) : NO_WARMTH,
    target,
    today,
    shift: 0,
  })
}

/** What a block's past seasons teach; kept, since each is asked about many times. */
const learned = new WeakMap<readonly SimulatedSeason[], RipeningPrior>()

function learnedFrom(past: readonly SimulatedSeason[]): RipeningPrior {
  const before = learned.get(past)
  if (before) return before
  const own = past.map((one) => lessonOf(believe(readingsOf(one, 999, {}), SUGAR, NO_WARMTH), SUGAR))
  const prior = learn(SUGAR, { own, variety: [] })
  learned.set(past, prior)
  return prior
}

function readingsOf({ samples, veraison, flowering }: SimulatedSeason, today: number, known: Known) {
  const taken = samples.filter(({ day }) => day <= today)
  const read = taken.map(({ day, brix, berries }) => {
    const entry = {
      date: isoDate(day),
      block: 'simulated',
      brix,
      ...(known.berriesWritten === false ? {} : { berries }),
      season: 1970,
    } as SampleEntry
    return { entry, facts: readSample(entry) }
  })
  const halfColour: HalfColour | null =
    known.veraison && veraison <= today
      ? { ...veraisonDay({ day: veraison, share: 0.5 }), by: 'veraison' }
      : null
  const readings = sugarReadings(read, { halfColour })
  if (readings.length > 0 || !known.flowering || flowering > today) return readings
  return [colourReading({ ...veraisonAfter(bloomBy(65, flowering)), by: 'flowering' })]
}

const rounded = (earliest: number, likely: number, latest: number): Answer => ({
  earliest: Math.ceil(earliest),
  likely: Math.ceil(likely),
  latest: Math.ceil(latest),
})

/** Plain answers to be better than. */
export const BASELINES: Record<string, (block: SimulatedBlock, today: number) => Answer> = {
  'line of the last three': ({ season, target }, today) => {
    const known = season.samples.filter(({ day }) => day <= today).slice(-3)
    if (known.length < 3) return { earliest: null, likely: null, latest: null }
    const points = known.map(({ day, brix }) => ({
      x: day,
      y: brix.reduce((a, b) => a + b, 0) / brix.length,
    }))
    const [x, y] = [points.reduce((sum, p) => sum + p.x, 0) / 3, points.reduce((sum, p) => sum + p.y, 0) / 3]
    const sxx = points.reduce((sum, p) => sum + (p.x - x) ** 2, 0)
    const slope = points.reduce((sum, p) => sum + (p.x - x) * (p.y - y), 0) / sxx
    // A slope's standard error at 0.35 °Brix of noise between samples.
    const error = 0.35 / Math.sqrt(sxx)
    const at = (rate: number) => x + (target - y) / Math.max(0.03, rate)
    return rounded(at(slope + 1.645 * error), at(slope), at(slope - 1.645 * error))
  },
  '0.20 ± 0.08 a day': ({ season, target }, today) => {
    const last = season.samples.findLast(({ day }) => day <= today)
    if (!last) return { earliest: null, likely: null, latest: null }
    const gap = target - last.brix.reduce((a, b) => a + b, 0) / last.brix.length
    return rounded(last.day + (gap - 0.5) / 0.28, last.day + gap / 0.2, last.day + (gap + 0.5) / 0.12)
  },
  "the block's mean date": ({ past, target }) => {
    const days = past.flatMap(({ course }) => {
      const day = course.findIndex((brix) => brix >= target)
      return day < 0 ? [] : day
    })
    if (days.length < 2) return { earliest: null, likely: null, latest: null }
    const mean = days.reduce((a, b) => a + b, 0) / days.length
    return rounded(mean - 1.645 * 12, mean, mean + 1.645 * 12)
  },
}
