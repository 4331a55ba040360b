import { hemisphereOf } from '../../agronomy/heat/season-window.ts'
import { winklerSeason } from '../../agronomy/heat/winkler.ts'
import { ESTIMATE_CAUTIONS, SPRAY_CAUTIONS } from '../../facts/cautions.ts'
import type { DayChart } from '../../facts/charts/day-chart.ts'
import { sitePressure } from '../../facts/disease/site.ts'
import { type DateSpan, windowOf } from '../../facts/heat/window.ts'
import { type CoverGap, gapsOf } from '../../facts/protection/gaps.ts'
import { neededSpan } from '../../facts/protection/needed.ts'
import { type CoverState, coverOn } from '../../facts/protection/parts.ts'
import { rainBetween, rainKnownUntil, rainPeriods } from '../../facts/protection/periods.ts'
import { pressureChart, pressureOn } from '../../facts/protection/pressure-on.ts'
import { type CoverFrom, type SprayCover, sprayCover } from '../../facts/protection/sprays.ts'
import { makeReport, type Report, type ReportInput } from '../../facts/report.ts'
import { applicationsOf } from '../../facts/spraying/applications.ts'
import { weatherOf } from '../../facts/weather/hours.ts'
import type { Named } from '../../ledger/read/ledger.ts'
import type { Block } from '../../records/block.ts'
import { addDays, dayOf, daysBetween, type IsoDate } from '../../records/date.ts'
import { DISEASES, type Disease } from '../../records/target.ts'
import { type HarvestStop, harvestStop, type PickingWindow } from './harvest-stop.ts'

export interface CoverDay {
  date: IsoDate
  /** Null where it can't be told; `why` says why. */
  covered: boolean | null
  /** Id of the product that covers; of several on parts of the block, the one whose cover ends first; else null. */
  by: string | null
  /** Days for which the cover of the whole block still lasts after this one. */
  daysLeft: number | null
  /** Share of the block that is covered, 0 to 1; null where unknown. */
  share: number | null
  why: string | null
  /** mm since the newest spray, up to the end of the day; null where rain is missing or nothing was sprayed. */
  rainSince: number | null
  /** The disease's index on the day: powdery 0 to 100, botrytis 0 to 1, downy and black rot 1 where infection was possible. */
  pressure: number | null
  /** Whether the block needs cover on this day. */
  needed: boolean
}

export interface DiseaseCover {
  disease: Disease
  needed: { from: IsoDate; to: IsoDate; why: string }
  sprays: SprayCover[]
  days: CoverDay[]
  gaps: CoverGap[]
  /** The next spray against the days before harvest; null where none is needed, or no windows were given. */
  harvestStop: HarvestStop | null
}

export interface BlockCover extends DiseaseCover {
  block: string
  /** Rows that the block has; null where its record doesn't say. */
  rows: number | null
  /** The same against the other diseases. */
  diseases: DiseaseCover[]
}

export interface CoverData {
  disease: Disease
  /** From when cover is followed: the start of the growing season. */
  from: IsoDate
  blocks: BlockCover[]
  /** What the cover was reckoned from, in words. */
  rules: string[]
  /** What is missing from the weather; null where nothing is. */
  why: string | null
  /** Pressure of the disease asked for, over the same days. */
  chart: DayChart
}

export interface CoverOptions {
  disease?: Disease | undefined
  /** When each block may be picked, by block, to set the next spray against. */
  windows?: ReadonlyMap<string, PickingWindow> | undefined
}

const FOLLOWED = DISEASES.filter((disease) => disease !== 'phomopsis')

const RULES = [
  'Cover ends with the first of: rain before the spray was dry, rain in sum over the label, the days that the product protects, ten days of rapid growth from stage 13 to 71 (common practice, no source; not for what moves into new growth), and the interval of the label or of the table by index, the shorter.',
  'Rows sprayed on different days add up to a block; parts written as shares do not, since they may lie over one another.',
  'Where hours are missing, the highest index that they leave open counts. The interval table by index is from memory of UC IPM; it was not read.',
]

/** Whether the vines are covered, by what and until when: for each block and disease, day by day. */
export function cover(
  input: ReportInput,
  { disease = 'powdery', windows }: CoverOptions = {},
): Report<CoverData> {
  const { ledger, season, asOf } = input
  const hemisphere = hemisphereOf(ledger.vineyard.latitude)
  const growing = windowOf(winklerSeason[hemisphere], { season, hemisphere })
  const weather = weatherOf(ledger, season)
  const against = follower(input, { growing, windows })
  const data: CoverData = {
    disease,
    from: growing.from,
    blocks: input.blocks.map((block) => ({
      block: block.id,
      rows: block.rows ?? null,
      ...against.cover(block, disease),
      diseases: FOLLOWED.filter((one) => one !== disease).map((one) => against.cover(block, one)),
    })),
    rules: RULES,
    why:
      weather.station.file === null
        ? 'the season has no weather.csv, so rain and pressure are unknown'
        : null,
    chart: pressureChart(against.site.days, disease, against.site.charts),
  }
  return makeReport(
    'cover',
    { asOf, season },
    { data, findings: weather.station.findings, cautions: [...SPRAY_CAUTIONS, ...ESTIMATE_CAUTIONS] },
  )
}

/** What all blocks and diseases share, and the cover of one block against one disease. */
function follower(
  input: ReportInput,
  { growing, windows }: { growing: DateSpan; windows: CoverOptions['windows'] },
) {
  const { ledger, season, asOf } = input
  const periods = rainPeriods(weatherOf(ledger, season))
  const rainUntil = rainAskedFor(asOf, rainKnownUntil(periods))
  const site = sitePressure(input)
  const byDate = new Map(site.days.map((day) => [day.date, day]))
  const all = applicationsOf(
    ledger,
    ledger.sprays.filter((spray) => spray.season === season && spray.date <= asOf),
  )
  const rain = rainBetween(periods)
  const firstDay = dayOf(site.days[0]?.date ?? asOf)
  const indexOn = (day: number) => {
    const powdery = site.days[day - firstDay]?.powdery
    return powdery?.index ?? powdery?.high ?? null
  }
  const dates = datesOf({ from: growing.from, to: asOf < growing.to ? asOf : growing.to })
  const coverOf = (block: Named<Block>, disease: Disease): DiseaseCover => {
    const stages = ledger.stages.filter(
      (entry) => entry.block === block.id && entry.season === season && entry.date <= asOf,
    )
    const from: CoverFrom = { disease, stages, periods, rainUntil, indexOn }
    const sprays = all
      .filter((application) => application.block.id === block.id && application.targets.includes(disease))
      .map((application) => sprayCover(application, from))
    const needed = neededSpan(ledger, { block: block.id, disease, season, start: growing.from, asOf })
    const rows = block.rows ?? null
    const days = dates.map((date): CoverDay & { state: CoverState } => {
      const state = coverOn(date, sprays, { rows })
      const { covered, share, daysLeft, why } = state
      const latest = sprays.findLast((spray) => spray.date <= date)
      const end = Math.min((dayOf(date) + 1) * 24, Math.max(rainUntil, latest?.sprayed ?? 0))
      return {
        date,
        ...{ covered, by: state.decider?.product ?? null, daysLeft, share, why },
        rainSince: latest ? rain(latest.sprayed, end) : null,
        pressure: pressureOn(byDate.get(date), disease),
        needed: date >= needed.from && date <= needed.to,
        state,
      }
    })
    const today = days.at(-1)
    const window = windows?.get(block.id)
    const isDue = window?.picked === null && today?.needed === true && today.date === asOf
    return {
      disease,
      needed,
      sprays,
      days: days.map(({ state, ...day }) => day),
      gaps: gapsOf(days, { disease, sprays }),
      harvestStop:
        isDue && window ? harvestStop(ledger, { window, disease, asOf, today: today.state }) : null,
    }
  }
  return { site, cover: coverOf }
}

/** Rain of the last day or so isn't in yet; a station that has been silent for longer leaves cover open. */
function rainAskedFor(asOf: IsoDate, known: number | null): number {
  const end = (dayOf(asOf) + 1) * 24
  return known !== null && end - known <= 48 ? Math.min(known, end) : end
}

function datesOf({ from, to }: DateSpan): IsoDate[] {
  return Array.from({ length: Math.max(0, daysBetween(from, to) + 1) }, (_, at) => addDays(from, at))
}
