import type { Named } from '../../ledger/read/ledger.ts'
import { addDays, dayOf, daysBetween, type IsoDate, isoDate } from '../../records/date.ts'
import type { Disease } from '../../records/disease.ts'
import type { Block } from '../../records/kinds/block.ts'
import { type DangerJudge, dangerJudge, plainDanger } from '../danger/danger.ts'
import { pressureOn } from '../disease/charts.ts'
import type { DateSpan } from '../heat/window.ts'
import { growingSpan } from '../heat/window.ts'
import type { ReportInput } from '../report.ts'
import { applicationsOf } from '../spraying/applications.ts'
import { weatherOf } from '../weather/hours.ts'
import type { CoverDay } from './day.ts'
import { type CoverGap, gapsOf } from './gaps.ts'
import { neededSpan } from './needed.ts'
import { coverOn } from './parts.ts'
import { rainBetween, rainKnownUntil, rainPeriods } from './periods.ts'
import { type CoverFrom, type SprayCover, sprayCover } from './sprays.ts'

/** Whether a block is protected against a disease, by what and until when, day by day. */
export interface DiseaseCover {
  disease: Disease
  needed: { from: IsoDate; to: IsoDate; why: string }
  sprays: SprayCover[]
  days: CoverDay[]
  /** One of the days; undefined where it lies outside of them. */
  on: (date: IsoDate) => CoverDay | undefined
  gaps: CoverGap[]
}

/** A block's protection against each disease. */
interface BlockCovers {
  block: Named<Block>
  covers: DiseaseCover[]
}

/**
 * The protection of each block against every disease judged here, the requested one first; `judge` where a report
 * already has one.
 */
export function coversOf(
  input: ReportInput,
  { first = 'powdery', judge = dangerJudge(input) }: { first?: Disease; judge?: DangerJudge } = {},
): BlockCovers[] {
  const coverOf = follower(input, judge)
  const diseases = [first, ...judge.diseases.filter((disease) => disease !== first)]
  return input.blocks.map((block) => ({ block, covers: diseases.map((disease) => coverOf(block, disease)) }))
}

/** Calculates what all blocks and diseases share, then the protection of one block against one disease. */
function follower(input: ReportInput, judge: DangerJudge) {
  const { ledger, season, asOf } = input
  const growing = growingSpan(ledger.vineyard, season)
  const { site } = judge
  const byDate = new Map(site.days.map((day) => [day.date, day]))
  const applications = applicationsOf(
    ledger,
    ledger.sprays.filter((spray) => spray.season === season && spray.date <= asOf),
  )
  // Includes earlier days, to know how far back rain is known.
  const firstRain = dayOf(applications[0]?.spray.date ?? asOf) - LAG_DAYS - 1
  const periods = rainPeriods(weatherOf(ledger, season), firstRain)
  const rainUntil = rainAskedFor(asOf, rainKnownUntil(periods))
  const rain = rainBetween(periods)
  const firstDay = dayOf(site.days[0]?.date ?? asOf)
  const indexOn = (day: number) => {
    const powdery = site.days[day - firstDay]?.powdery
    return powdery?.index ?? powdery?.high ?? null
  }
  const lastDay = asOf < growing.to ? asOf : growing.to
  const dates = datesOf({ from: growing.from, to: lastDay })
  return (block: Named<Block>, disease: Disease): DiseaseCover => {
    const noted = ledger.stages.filter(
      (entry) => entry.block === block.id && entry.season === season && entry.date <= asOf,
    )
    // The last stage noted on a day decides.
    const stages = [...new Map(noted.map(({ date, stage }) => [dayOf(date), stage]))].map(([day, stage]) => ({
      day,
      stage,
    }))
    const isGrave = (day: number) => {
      const { level, critical } = judge.on(block.id, disease, isoDate(day))
      return level === 'high' || critical !== 'out'
    }
    const from: CoverFrom = { disease, stages, periods, rainUntil, indexOn, isGrave }
    const sprays = applications
      .filter((application) => application.block.id === block.id && application.targets.includes(disease))
      .map((application) => sprayCover(application, from))
    const rows = block.rows ?? null
    const stateOn = (date: IsoDate) => coverOn(date, sprays, { rows })
    const dayOn = (date: IsoDate): CoverDay => {
      const { covered, share, inPart, daysLeft, why, decider } = stateOn(date)
      let needed: boolean | undefined
      return {
        date,
        covered,
        by: decider?.product ?? null,
        daysLeft,
        share,
        inPart,
        why,
        // Calculated on demand: most reports need only a few of a season's days.
        get rainSince() {
          const latest = sprays.findLast((spray) => spray.date <= date)
          const end = Math.min((dayOf(date) + 1) * 24, Math.max(rainUntil, latest?.sprayed ?? 0))
          return latest ? rain(latest.sprayed, end) : null
        },
        get pressure() {
          return pressureOn(byDate.get(date), disease)
        },
        get danger() {
          return plainDanger(judge.on(block.id, disease, date))
        },
        get needed() {
          needed ??= judge.isOpen(block.id, disease, date)
          return needed
        },
      }
    }
    let all: CoverDay[] | undefined
    const days = () => (all ??= dates.map(dayOn))
    return {
      disease,
      get needed() {
        return neededSpan(days(), { start: growing.from, isJudged: judge.diseases.includes(disease) })
      },
      sprays,
      get days() {
        return days()
      },
      on: (date) => (date < growing.from || date > lastDay ? undefined : dayOn(date)),
      get gaps() {
        return gapsOf(days(), (date) => stateOn(date).decider, sprays)
      },
    }
  }
}

/** Days that rain data may lag. Our own choice. */
const LAG_DAYS = 2

/** Rain of the last day or so may not be in yet; a station silent for longer leaves protection unknown. */
function rainAskedFor(asOf: IsoDate, known: number | null): number {
  const end = (dayOf(asOf) + 1) * 24
  return known !== null && end - known <= LAG_DAYS * 24 ? Math.min(known, end) : end
}

function datesOf({ from, to }: DateSpan): IsoDate[] {
  return Array.from({ length: Math.max(0, daysBetween(from, to) + 1) }, (_, at) => addDays(from, at))
}
