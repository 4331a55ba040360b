import { powderyPressure } from '../agronomy/powdery-interval.ts'
import { hemisphereOf } from '../agronomy/season-window.ts'
import { winklerSeason } from '../agronomy/winkler.ts'
import { addDays, dayOf, daysBetween, type IsoDate, isoDate } from '../records/date.ts'
import { DISEASES, type Disease } from '../records/target.ts'
import { applicationsOf } from '../rules/facts/applications.ts'
import { weatherOf } from '../rules/facts/weather.ts'
import { ESTIMATE_CAUTIONS } from './cautions.ts'
import type { DayChart } from './charts/day-chart.ts'
import { neededSpan } from './cover/needed.ts'
import { rainBetween, rainKnownUntil, rainPeriods } from './cover/periods.ts'
import { type CoverFrom, type SprayCover, sprayCover } from './cover/sprays.ts'
import { windowOf } from './heat/window.ts'
import type { PressureDay } from './pressure/days.ts'
import { pressure } from './pressure.ts'
import { makeReport, type Report, type ReportInput } from './report.ts'

export interface CoverDay {
  date: IsoDate
  /** Null where missing rain leaves it open. */
  covered: boolean | null
  /** Id of the product that covers; null where none does. */
  by: string | null
  /** Days for which the cover still lasts after this one. */
  daysLeft: number | null
  /** mm since the newest spray, up to the end of the day; null where rain is missing or nothing was sprayed. */
  rainSince: number | null
  /** The disease's index on the day: powdery 0 to 100, botrytis 0 to 1, downy and black rot 1 where infection was possible. */
  pressure: number | null
  /** Whether the block needs cover on this day. */
  needed: boolean
}

export interface CoverGap {
  from: IsoDate
  to: IsoDate
  days: number
  /** Greatest pressure of its days; null where none is known. */
  worstIndex: number | null
  risk: 'low' | 'moderate' | 'high' | null
  /** How the cover before it ended. */
  after: string | null
}

export interface DiseaseCover {
  disease: Disease
  needed: { from: IsoDate; to: IsoDate; why: string }
  sprays: SprayCover[]
  days: CoverDay[]
  gaps: CoverGap[]
}

export interface BlockCover extends DiseaseCover {
  block: string
  /** The same against the other diseases. */
  diseases: DiseaseCover[]
}

export interface CoverData {
  disease: Disease
  blocks: BlockCover[]
  /** What the cover was reckoned from, in words. */
  rules: string[]
  /** What is missing from the weather; null where nothing is. */
  why: string | null
  /** Pressure of the disease asked for, over the same days. */
  chart: DayChart
}

const FOLLOWED = DISEASES.filter((disease) => disease !== 'phomopsis')

/** Whether the vines are covered, by what and until when: for each block and disease, day by day. */
export function cover(
  input: ReportInput,
  { disease = 'powdery' }: { disease?: Disease } = {},
): Report<CoverData> {
  const { ledger, season, asOf, blocks } = input
  const hemisphere = hemisphereOf(ledger.vineyard.latitude)
  const growing = windowOf(winklerSeason[hemisphere], { season, hemisphere })
  const weather = weatherOf(ledger, season)
  const periods = rainPeriods(weather)
  const known = rainKnownUntil(periods)
  const asOfEnd = (dayOf(asOf) + 1) * 24
  // Rain of the last day or so isn't in yet; a station that has been silent for longer leaves cover open.
  const rainUntil = known !== null && asOfEnd - known <= 48 ? Math.min(known, asOfEnd) : asOfEnd
  const site = pressure({ ...input, blocks: [...ledger.blocks.values()] }, { from: growing.from })
  const byDate = new Map(site.data.days.map((day) => [day.date, day]))
  const all = applicationsOf(
    ledger,
    ledger.sprays.filter((spray) => spray.season === season && spray.date <= asOf),
  )
  const rain = rainBetween(periods)
  const firstDay = dayOf(site.data.days[0]?.date ?? asOf)
  const indexOn = (day: number) => {
    const powdery = site.data.days[day - firstDay]?.powdery
    return powdery?.index ?? powdery?.high ?? null
  }
  const span = { from: growing.from, to: asOf < growing.to ? asOf : growing.to }
  const dates = datesOf(span).map((date, at) => ({ date, end: (dayOf(span.from) + at + 1) * 24 }))
  const against = (block: string, one: Disease): DiseaseCover => {
    const stages = ledger.stages.filter(
      (entry) => entry.block === block && entry.season === season && entry.date <= asOf,
    )
    const from: CoverFrom = { disease: one, stages, periods, rainUntil, indexOn }
    const sprays = all
      .filter((application) => application.block.id === block && application.targets.includes(one))
      .map((application) => sprayCover(application, from))
    const needed = neededSpan(ledger, { block, disease: one, season, start: growing.from, asOf })
    const days = dates.map(({ date, end }): CoverDay => {
      const state = stateOn(date, sprays)
      const latest = sprays.findLast((spray) => spray.date <= date)
      return {
        date,
        ...state,
        rainSince: latest ? rain(latest.sprayed, Math.min(end, Math.max(rainUntil, latest.sprayed))) : null,
        pressure: pressureOf(byDate.get(date), one),
        needed: date >= needed.from && date <= needed.to,
      }
    })
    return { disease: one, needed, sprays, days, gaps: gapsOf(days, { disease: one, sprays }) }
  }
  const data: CoverData = {
    disease,
    blocks: blocks.map(({ id }) => ({
      block: id,
      ...against(id, disease),
      diseases: FOLLOWED.filter((one) => one !== disease).map((one) => against(id, one)),
    })),
    rules: RULES,
    why:
      weather.station.file === null
        ? 'the season has no weather.csv, so rain and pressure are unknown'
        : null,
    chart: chartOf(site.data.days, disease, site.data.charts.powdery),
  }
  return makeReport(
    'cover',
    { asOf, season },
    { data, findings: weather.station.findings, cautions: ESTIMATE_CAUTIONS },
  )
}

const RULES = [
  'Cover ends with the first of: rain before the spray was dry, rain in sum over the label, the days that the product protects, ten days of rapid growth from stage 13 to 71 (common practice, no source; not for what moves into new growth), and the interval of the label or of the table by index, the shorter.',
  'The interval table by index is from memory of UC IPM; it was not read.',
]

function datesOf({ from, to }: { from: IsoDate; to: IsoDate }): IsoDate[] {
  return Array.from({ length: Math.max(0, daysBetween(from, to) + 1) }, (_, at) => addDays(from, at))
}

/** A share of a block that counts as all of it. */
const WHOLE = 0.999

function stateOn(
  date: IsoDate,
  sprays: readonly SprayCover[],
): Pick<CoverDay, 'covered' | 'by' | 'daysLeft'> {
  const past = sprays.filter((spray) => spray.date <= date)
  const whole = past.filter(({ share }) => share !== null && share >= WHOLE)
  const sure = whole.filter((spray) => (spray.until ?? spray.sureUntil ?? '') >= date)
  const best = sure.reduce<SprayCover | null>(
    (found, one) => (found && (found.until ?? '9999') >= (one.until ?? '9999') ? found : one),
    null,
  )
  if (best)
    return {
      covered: true,
      by: best.product,
      daysLeft: best.until === null ? null : daysBetween(date, best.until),
    }
  // Rows of a block that doesn't say how many it has: how much was covered is unknown, and so not all of it.
  const open =
    whole.findLast((spray) => spray.until === null && (spray.atMost ?? '9999') >= date) ??
    past.findLast((spray) => spray.share === null && (spray.until ?? spray.atMost ?? '9999') >= date)
  return { covered: open ? null : false, by: null, daysLeft: open ? null : 0 }
}

function gapsOf(
  days: readonly CoverDay[],
  { disease, sprays }: { disease: Disease; sprays: readonly SprayCover[] },
): CoverGap[] {
  const gaps: CoverGap[] = []
  days.forEach((day, at) => {
    if (!day.needed || day.covered !== false) return
    const before = days[at - 1]
    const running = gaps.at(-1)
    if (!running || before?.date !== running.to) {
      const ended = sprays.findLast(({ date, share }) => date < day.date && share !== null && share >= WHOLE)
      const after = ended ? `${ended.product} of ${ended.date}: ${ended.reason ?? 'unknown'}` : null
      gaps.push({ from: day.date, to: day.date, days: 1, worstIndex: day.pressure, risk: null, after })
      return
    }
    running.to = day.date
    running.days++
    if (day.pressure !== null) running.worstIndex = Math.max(running.worstIndex ?? 0, day.pressure)
  })
  return gaps.map((gap) => ({ ...gap, risk: riskOf(gap.worstIndex, disease) }))
}

export function riskOf(index: number | null, disease: Disease): CoverGap['risk'] {
  if (index === null) return null
  if (disease === 'powdery') return powderyPressure(index)
  if (disease !== 'botrytis') return index > 0 ? 'high' : 'low'
  // The classes stand on the logit: 0.5 and 1.
  const logit = Math.log(index / (1 - index))
  return logit >= 1 ? 'high' : logit >= 0.5 ? 'moderate' : 'low'
}

function pressureOf(day: PressureDay | undefined, disease: Disease): number | null {
  if (!day) return null
  const yes = (value: boolean | null) => (value === null ? null : value ? 1 : 0)
  if (disease === 'powdery') return day.powdery.index ?? day.powdery.high
  if (disease === 'downy') return yes(day.downy.primary)
  if (disease === 'botrytis') return day.botrytis.index ?? (day.botrytis.risk === 'none' ? 0 : null)
  return disease === 'black-rot' ? yes(day.blackRot.infection) : null
}

function chartOf(days: readonly PressureDay[], disease: Disease, powdery: DayChart): DayChart {
  if (disease === 'powdery') return powdery
  const values = days.map((day) => pressureOf(day, disease))
  const from = days[0]?.date ?? isoDate(0)
  return { title: `${disease} pressure`, unit: '', from, low: 0, high: 1, values, combine: 'greatest' }
}
