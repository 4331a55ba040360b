import { makeReport, type Report, type ReportFinding, type ReportInput } from '../../facts/report.ts'
import { type CoverData, cover } from '../cover/report.ts'
import { type CropData, crop } from '../crop/report.ts'
import { type HarvestData, harvest } from '../harvest/report.ts'
import { type HeatData, heat } from '../heat/report.ts'
import { type PressureData, pressure } from '../pressure/report.ts'
import { type ReadyData, ready } from '../ready/report.ts'
import { type RipenessData, ripeness } from '../ripeness/report.ts'
import { type ScoutingData, scouting } from '../scouting/report.ts'
import { type TotalsData, totals } from '../totals/report.ts'
import { type WindowData, window } from '../window/report.ts'

/** Every report of a season as it would be printed on its own, each under its name. */
export interface SeasonData {
  ready: ReadyData
  window: WindowData
  ripeness: RipenessData
  crop: CropData
  harvest: HarvestData
  scouting: ScoutingData
  cover: CoverData
  pressure: PressureData
  totals: TotalsData
  heat: HeatData
}

/** The whole season in one report. */
export function season(input: ReportInput): Report<SeasonData> {
  const windows = window(input)
  const parts = {
    ready: ready(input),
    window: windows,
    ripeness: ripeness(input),
    crop: crop(input),
    harvest: harvest(input),
    scouting: scouting(input),
    cover: cover(input, { windows: new Map(windows.data.blocks.map((one) => [one.block, one])) }),
    pressure: pressure(input),
    totals: totals(input),
    heat: heat(input),
  }
  const all: Report<unknown>[] = Object.values(parts)
  const data = Object.fromEntries(Object.entries(parts).map(([name, report]) => [name, report.data]))
  const report = makeReport('season', input, { data: data as unknown as SeasonData })
  return {
    ...report,
    findings: unique(all.flatMap(({ findings }) => findings)),
    cautions: [...new Set(all.flatMap(({ cautions }) => cautions))],
  }
}

function unique(findings: readonly ReportFinding[]): ReportFinding[] {
  return [...new Map(findings.map((finding) => [JSON.stringify(finding), finding])).values()]
}

/** One part of a season as a report of its own. */
export function partOf<K extends keyof SeasonData>(
  whole: Report<SeasonData>,
  name: K,
): Report<SeasonData[K]> {
  return { ...whole, report: name, data: whole.data[name], findings: [], cautions: [] }
}
