import type { Named } from '../../ledger/read/ledger.ts'
import { addDays, dayOf, daysBetween, type IsoDate, isoDate } from '../../records/date.ts'
import type { Disease } from '../../records/disease.ts'
import { atFirstUse } from '../../records/fields/field.ts'
import type { Block } from '../../records/kinds/block.ts'
import { type DangerJudge, dangerJudge, plainDanger } from '../danger/danger.ts'
import { pressureOn } from '../disease/charts.ts'
import { growingSpan } from '../heat/window.ts'
import type { ReportInput } from '../report.ts'
import { applicationsOf } from '../spraying/applications.ts'
import { weatherOf } from '../weather/hours.ts'
import { type CoverDay, type NeededSpan, neededSpan } from './day.ts'
import { type CoverGap, gapsOf } from './gaps.ts'
import { coverOn } from './parts.ts'
import { rainBetween, rainKnownUntil, rainPeriods } from './periods.ts'
import { type CoverFrom, type SprayCover, sprayCover } from './sprays.ts'

/** Whether a block is protected against a disease, by what and until when, day by day. */
export interface DiseaseCover {
  disease: Disease
  needed: NeededSpan
  sprays: SprayCover[]
  days: CoverDay[]
  /** One of the days; undefined where it lies outside of them. */
  on: (date: IsoDate) => CoverDay | undefined
  gaps: CoverGap[]
}

/**
 * The protection of each block against every disease judged here, the requested one first; `judge` where a report
 * already has one. What all blocks and diseases share is calculated once.
 */
export function coversOf(
  input: ReportInput,
  { first = 'powdery', judge = dangerJudge(input) }: { first?: Disease; judge?: DangerJudge } = {},
): { block: Named<Block>; covers: DiseaseCover[] }[] {
  const { ledger, season, asOf } = input
  const growing = growingSpan(ledger.vineyard, season)
  const { site } = judge
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
  const pressureDay = (day: number) => site.days[day - firstDay]
  const lastDay = asOf < growing.to ? asOf : growing.to
  const dates = Array.from({ length: Math.max(0, daysBetween(growing.from, lastDay) + 1) }, (_, at) =>
    addDays(growing.from, at),
  )
  const coverOf = (block: Named<Block>, disease: Disease): DiseaseCover => {
    const noted = ledger.stages.filter(
      (entry) => entry.block === block.id && entry.season === season && entry.date <= asOf,
    )
    const from: CoverFrom = {
      disease,
      // The last stage noted on a day decides.
      stages: [...new Map(noted.map(({ date, stage }) => [dayOf(date), stage]))].map(([day, stage]) => ({
        day,
        stage,
      })),
      periods,
      rainUntil,
      indexOn: (day) => pressureOn(pressureDay(day), 'powdery'),
      isGrave: (day) => {
        const { level, critical } = judge.on(block.id, disease, isoDate(day))
        return level === 'high' || critical !== 'out'
      },
    }
    const sprays = applications
      .filter((application) => application.block.id === block.id && application.targets.includes(disease))
      .map((application) => sprayCover(application, from))
    const stateOn = (date: IsoDate) => coverOn(date, sprays, { rows: block.rows ?? null })
    const dayOn = (date: IsoDate): CoverDay => {
      const { decider, ...state } = stateOn(date)
      let needed: boolean | undefined
      return {
        date,
        ...state,
        by: decider?.product ?? null,
        // Calculated on demand: most reports need only a few of a season's days.
        get rainSince() {
          const latest = sprays.findLast((spray) => spray.date <= date)
          const end = Math.min((dayOf(date) + 1) * 24, Math.max(rainUntil, latest?.sprayed ?? 0))
          return latest ? rain(latest.sprayed, end) : null
        },
        get pressure() {
          return pressureOn(pressureDay(dayOf(date)), disease)
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
    const days = atFirstUse(() => dates.map(dayOn))
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
  const diseases = [first, ...judge.diseases.filter((disease) => disease !== first)]
  return input.blocks.map((block) => ({ block, covers: diseases.map((disease) => coverOf(block, disease)) }))
}

/** Days that rain data may lag. Our own choice. */
const LAG_DAYS = 2

/** Rain of the last day or so may not be in yet; a station silent for longer leaves protection unknown. */
function rainAskedFor(asOf: IsoDate, known: number | null): number {
  const end = (dayOf(asOf) + 1) * 24
  return known !== null && end - known <= LAG_DAYS * 24 ? Math.min(known, end) : end
}
