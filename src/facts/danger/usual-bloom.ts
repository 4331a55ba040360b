import { type DaySpan, usualBloom } from '../../agronomy/heat/bloom-timing.ts'
import { heatStage, stageSumStart } from '../../agronomy/heat/heat-stage.ts'
import { hemisphereOf } from '../../agronomy/heat/season-window.ts'
import { highest, lowest } from '../../agronomy/statistics/extremes.ts'
import { dayOf, isoDate } from '../../records/date.ts'
import { shortDate } from '../../records/spoken-date.ts'
import { daysIn, shiftYears, windowOf } from '../heat/window.ts'
import type { ReportInput } from '../report.ts'
import { weatherDaysOf } from '../weather/in-short.ts'

/**
 * Days either way of a past bloom, and of one predicted by heat. Errors of the heat sum under a week: Parker et al.
 * 2020, OENO One 54 (abstract read).
 */
const EITHER_WAY = 7
/** Days without a mean that a heat sum may have. Our own choice. */
const MOST_MISSING = 5

/**
 * When full bloom is likely where no stage is noted: by the variety's heat sum where the weather
 * allows one, else by past blooms of the block, else by the usual calendar at the latitude.
 */
export function usualBloomOf(input: Omit<ReportInput, 'blocks'>, block: string): BloomSpan {
  const calendar = byPast(input, block) ?? byLatitude(input)
  const heat = byHeat(input, block)
  if (!heat) return calendar
  const earliest = Math.max(heat.earliest, calendar.earliest)
  const latest = Math.min(heat.latest, calendar.latest)
  return earliest <= latest ? { ...heat, earliest, latest } : heat
}

function byLatitude({ ledger, season }: Omit<ReportInput, 'blocks'>): BloomSpan {
  const { latitude } = ledger.vineyard
  const { from, to } = usualBloom(latitude)
  const year = latitude < 0 ? season - 1 : season
  const shift = latitude < 0 ? 184 : 0
  const day = ([month, date]: readonly [number, number]) =>
    dayOf(`${year}-${String(month).padStart(2, '0')}-${String(date).padStart(2, '0')}`) + shift
  const [earliest, latest] = [day(from), day(to)]
  return { earliest, latest, guess: true, why: `usual calendar, bloom ${spanText(earliest, latest)}` }
}

/** Blooms noted on the block in other seasons, moved to this one. */
function byPast({ ledger, season }: Omit<ReportInput, 'blocks'>, block: string): BloomSpan | null {
  const past = ledger.stages
    .filter((entry) => entry.block === block && entry.season < season)
    .filter(({ stage }) => stage >= 61 && stage <= 69)
    .map(({ date, season: of }) => dayOf(shiftYears({ from: date, to: date }, season - of).from))
  if (past.length === 0) return null
  const [earliest, latest] = [lowest(past) - EITHER_WAY, highest(past) + EITHER_WAY]
  return { earliest, latest, guess: true, why: `past years, bloom ${spanText(earliest, latest)}` }
}

/** By the heat requirement in the variety's record; null where the sum has missing days. */
function byHeat({ ledger, season, asOf }: Omit<ReportInput, 'blocks'>, block: string): BloomSpan | null {
  const requirement = ledger.varieties.get(ledger.blocks.get(block)?.variety ?? '')?.heat?.flowering
  if (requirement === undefined) return null
  const hemisphere = hemisphereOf(ledger.vineyard.latitude)
  const sumOver = { from: stageSumStart[hemisphere], to: { month: 12, day: 31 } }
  const { from } = windowOf(sumOver, { season, hemisphere })
  const means = daysIn(weatherDaysOf(ledger, season), { from, to: asOf }).map((day) => day?.mean ?? null)
  const known = means.findLastIndex((mean) => mean !== null)
  const seen = means.slice(0, known + 1)
  if (seen.filter((mean) => mean === null).length > MOST_MISSING || seen.length === 0) return null
  const day = heatStage({ startDay: dayOf(from), means: seen, requirement })
  if (day === null) return null
  return {
    earliest: day - EITHER_WAY,
    latest: day + EITHER_WAY,
    guess: true,
    why: `heat sum, bloom about ${shortDate(isoDate(day))}`,
  }
}

const spanText = (earliest: number, latest: number) =>
  `${shortDate(isoDate(earliest))} to ${shortDate(isoDate(latest))}`

/** A span in which full bloom may fall, and what it is based on. */
export interface BloomSpan extends DaySpan {
  why: string
  /** Whether it is based on no stage noted this season. */
  guess: boolean
}
