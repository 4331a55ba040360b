import { windowOf } from '../../src/facts/window/block-window.ts'
import type { Ledger } from '../../src/ledger/read/ledger.ts'
import { dayOf, type IsoDate, isoDate } from '../../src/records/date.ts'
import { memoryLedger } from '../reports/memory-ledger.ts'
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

/** The season that is asked about. */
const YEAR = 2026

/** What `window` says of a simulated block on a day: its own code, over a ledger that holds what is known. */
export function asker(simulated: SimulatedBlock, known: Known): (today: number) => Answer {
  const { season } = simulated
  const ledger = ledgerOf(simulated, known)
  const block = ledger.blocks.get('sim')!
  return (today) => {
    const ahead = known.forecast ? 7 : 0
    const forecast = new Map(
      season.temperatures.slice(0, today + ahead + 1).map((mean, day) => [season.start + day, mean] as const),
    )
    const { earliest, likely, latest } = windowOf(
      block,
      { ledger, season: YEAR, asOf: isoDate(season.start + today) },
      { expected: true, forecast: known.forecast ? forecast : undefined },
    )
    const day = (date: IsoDate | null) => (date === null ? null : dayOf(date) - season.start)
    return { earliest: day(earliest), likely: day(likely), latest: day(latest) }
  }
}

/** The records of a block's season, and of its past where that is known. */
function ledgerOf({ season, past, target, latitude }: SimulatedBlock, known: Known): Ledger {
  const seasons = [...(known.past ? past : []), season].toReversed()
  const placed = <T>(of: (season: SimulatedSeason) => T[]) =>
    seasons.flatMap((one, back) => of(one).map((entry) => ({ block: 'sim', season: YEAR - back, ...entry })))
  const on = ({ start }: SimulatedSeason, day: number) => isoDate(start + day)
  const ledger = memoryLedger({ samples: [], season: YEAR, target: { low: target, high: target + 2 } })
  return {
    ...ledger,
    vineyard: { ...ledger.vineyard, latitude },
    samples: placed((one) =>
      one.samples.map(({ day, brix, berries }) => ({
        date: on(one, day),
        brix,
        ...(known.berriesWritten === false ? {} : { berries }),
      })),
    ),
    stages: placed((one) => [
      ...(known.flowering ? [{ date: on(one, one.flowering), stage: 65 }] : []),
      ...(known.veraison ? [{ date: on(one, one.veraison), stage: 83, share: 50 }] : []),
    ]),
    weather: known.weather
      ? season.temperatures.map((mean, day) => ({
          ...{ date: on(season, day), season: YEAR, low: mean - 5, high: mean + 5 },
        }))
      : [],
  } as unknown as Ledger
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
