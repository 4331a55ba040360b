import { dangerJudge } from '../../facts/danger/danger.ts'
import { pressureChart } from '../../facts/disease/charts.ts'
import { growingSpan } from '../../facts/heat/window.ts'
import { coversOf, type DiseaseCover as Followed } from '../../facts/protection/course.ts'
import { CAUTION, makeReport, type ReportInput } from '../../facts/report.ts'
import { besideStation } from '../../facts/weather/by-hand.ts'
import { weatherOf } from '../../facts/weather/hours.ts'
import type { Disease } from '../../records/disease.ts'
import { type HarvestStop, harvestStop, type PickingWindow } from './harvest-stop.ts'

/** Protection against a disease, and the limits on the next spray. */
export interface DiseaseCover extends Followed {
  /** The next spray against the pre-harvest intervals; null where none is needed, or no windows were given. */
  harvestStop: HarvestStop | null
}

export interface BlockCover extends DiseaseCover {
  block: string
  /** Rows that the block has; null where its record doesn't say. */
  rows: number | null
  /** The same against the other diseases. */
  diseases: DiseaseCover[]
}

/** The protection of each block against each disease, the one asked for first. */
export const coversIn = (blocks: readonly BlockCover[]): { block: string; cover: DiseaseCover }[] =>
  blocks.flatMap((one) => [one, ...one.diseases].map((cover) => ({ block: one.block, cover })))

export type CoverData = ReturnType<typeof cover>['data']

interface CoverOptions {
  disease?: Disease | undefined
  /** When a block may be picked, to compare the next spray with; called only where one is due. */
  windowOf?: ((block: string) => PickingWindow) | undefined
}

const RULES = [
  'Protection ends at the first of: rain on a wet spray, total rain, days of protection, rapid growth, interval.',
  'A spray needs 2 h to dry where the label names no time. Contact protectants wash off at 25 mm where it names no figure.',
  'Rapid growth means ten days from stage 13 to 71 (common practice, no source). It does not count for systemic products. The interval is the shorter of the label and the index table. The short end of the label counts in high danger, and from just before bloom to four weeks after. Where the label says how long the product protects, that counts instead.',
  'Bicarbonates and oils act only on mildew that is there. They stop with the first rain, after two days at most. Run `rowbook explain protection` for the sources.',
  'Rows sprayed on different days add up to a block. Shares do not, since they may overlap.',
  'Where hours are missing, the highest possible index counts. The index table is from memory of UC IPM; it was not read.',
]

/** Whether the vines are protected, by what and until when: for each block and disease, day by day. */
export function cover(input: ReportInput, { disease = 'powdery', windowOf }: CoverOptions = {}) {
  const { ledger, season, asOf } = input
  const weather = weatherOf(ledger, season)
  const judge = dangerJudge(input)
  const { days } = judge.site
  const data = {
    disease,
    /** First day of the report: the start of the growing season. */
    from: growingSpan(ledger.vineyard, season).from,
    blocks: coversOf(input, { first: disease, judge }).map(({ block, covers }): BlockCover => {
      let window: PickingWindow | undefined
      const askWindow = windowOf && (() => (window ??= windowOf(block.id)))
      const [first, ...diseases] = covers.map((one) => ({
        ...one,
        harvestStop: stopOf(one, input, askWindow),
      }))
      return { block: block.id, rows: block.rows ?? null, ...first!, diseases }
    }),
    /** The basis of the calculation, in words. */
    rules: RULES,
    /** What is missing from the weather; null where nothing is. */
    why:
      weather.station.file === null && weather.form === null
        ? 'no weather is recorded for the season, so rain and pressure are unknown'
        : null,
    /** Days whose rain or temperature was read by hand, beside a station; null where there is no station. */
    byHand: besideStation(weather, { from: growingSpan(ledger.vineyard, season).from, to: asOf }),
    /** Pressure of the disease asked for, over the same days. */
    chart: pressureChart(days, disease),
  }
  return makeReport(
    'cover',
    { asOf, season },
    { data, findings: weather.station.findings, cautions: [CAUTION.clearance, CAUTION.estimate] },
  )
}

/** Where a spray is due, how the pre-harvest intervals limit it. */
function stopOf(
  { disease, days }: Followed,
  { ledger, asOf }: ReportInput,
  windowOf: (() => PickingWindow) | undefined,
): HarvestStop | null {
  const today = days.at(-1)
  if (!windowOf || !today?.needed || today.date !== asOf) return null
  const window = windowOf()
  return window.picked === null ? harvestStop(ledger, { window, disease, asOf, today }) : null
}
