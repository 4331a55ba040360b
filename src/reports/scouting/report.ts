import { unitsForPrecision, unitsToDetect } from '../../agronomy/disease/detection.ts'
import { incidenceDifference } from '../../agronomy/disease/incidence-difference.ts'
import { findAdvice } from '../../facts/danger/advice.ts'
import { dangerJudge } from '../../facts/danger/danger.ts'
import { followUps } from '../../facts/danger/follow-up.ts'
import { type RoundRow, roundsOf } from '../../facts/disease/round-rows.ts'
import { type Threshold, thresholdOf, valueAgainst } from '../../facts/disease/threshold.ts'
import { groupedBy } from '../../facts/judged.ts'
import { CAUTION, makeReport, type ReportInput } from '../../facts/report.ts'
import { applicationsOf } from '../../facts/spraying/applications.ts'
import { windowOf } from '../../facts/window/block-window.ts'
import type { Ledger } from '../../ledger/read/ledger.ts'
import { addDays, daysBetween, type IsoDate } from '../../records/date.ts'
import { DISEASES } from '../../records/disease.ts'

interface ScoutingOptions {
  /** Half width of the interval that is wanted, as a share. */
  precision?: number | undefined
  /** Share that is to be found with 95 % confidence. */
  detect?: number | undefined
}

export type ScoutingTrend = ReturnType<typeof trendsOf>[number]

/** The state of a disease on an organ of a block, by the newest scouting round that looked. */
export type ScoutingState = ReturnType<typeof stateOf>

/** Where in a block a disease was found by a scouting round that said so. */
export type RowMap = ReturnType<typeof mapsOf>[number]

export type ScoutingData = ReturnType<typeof scouting>['data']

/** Disease found: every scouting round of the season with its uncertainty, and the change since the round before. */
export function scouting(input: ReportInput, options: ScoutingOptions = {}) {
  const { season, asOf, blocks } = input
  const { precision = 0.05, detect = 0.03 } = options
  const ids = new Set(blocks.map(({ id }) => id))
  const walks = roundsOf(input)
  const order = [...ids]
  const series = groups(walks).sort(
    ([a], [b]) =>
      order.indexOf(a!.block) - order.indexOf(b!.block) ||
      DISEASES.indexOf(a!.disease) - DISEASES.indexOf(b!.disease),
  )
  const data = {
    walks,
    /** The first scouting round of the season that found a disease, for each disease found. */
    firsts: DISEASES.flatMap(
      (disease) => walks.find((walk) => walk.disease === disease && walk.found > 0) ?? [],
    ),
    trends: series.flatMap((rows) => trendsOf(rows, input)),
    states: series.map((rows) => stateOf(rows.at(-1)!, { input, precision })),
    maps: series.flatMap((rows) => mapsOf(rows, input)),
    ...askedFor(input),
    /** Half width wanted, as a share. */
    precision,
    /** Units to look at so as to find a share with 95 % confidence, were it there; units must be independent. */
    detection: { share: detect, units: unitsToDetect(detect) },
  }
  // The advice after a find gives a dose to mix.
  const cautions = data.finds.length > 0 ? [CAUTION.dose, CAUTION.estimate] : [CAUTION.estimate]
  return makeReport('scouting', { asOf, season }, { data, cautions })
}

/** Untreated finds by block, and treated ones with the day to scout again. */
function askedFor(input: ReportInput) {
  const judge = dangerJudge(input)
  const acts = followUps(input, judge).filter(({ act }) => act)
  const finds = input.blocks.flatMap((block) => {
    const ones = acts.filter((one) => one.block === block.id && one.treated.length === 0)
    if (ones.length === 0) return []
    return [findAdvice(ones, { input, judge, picking: windowOf(block, input).earliest })]
  })
  const rounds = acts.flatMap(({ block, disease, newest, treated, nextRound }) =>
    treated.length === 0
      ? []
      : [{ block, disease, organ: newest.organ, treated: treated.at(-1)!.date, due: nextRound! }],
  )
  return { finds, rounds }
}

/** Scouting rounds of one block, disease and organ together, oldest first. */
const groups = (walks: readonly RoundRow[]): RoundRow[][] => [
  ...groupedBy(walks, ({ block, disease, organ }) => `${block} ${disease} ${organ}`).values(),
]

function trendsOf(rows: readonly RoundRow[], { ledger }: ReportInput) {
  const sprays = spraysByDay(ledger, rows[0]!)
  return rows.slice(1).flatMap((now, at) => {
    const then = rows[at]!
    const difference = incidenceDifference(
      { affected: then.found, looked: then.looked },
      { affected: now.found, looked: now.looked },
    )
    const { block, disease, organ } = now
    const span = { from: then.date, to: now.date }
    return difference
      ? [
          {
            block,
            disease,
            organ,
            ...span,
            ...difference,
            /**
             * Sprays of the block against the disease between the two scouting rounds, that of the earlier day
             * included.
             */
            sprays: between(sprays, span),
          },
        ]
      : []
  })
}

interface Spray {
  date: IsoDate
  product: string
  rows: { from: number; to: number } | null
}

type SpraysByDay = ReadonlyMap<IsoDate, Spray[]>

/** What was sprayed on a block against a disease, by day. */
function spraysByDay(ledger: Ledger, { block, disease }: RoundRow): SpraysByDay {
  const days = new Map<IsoDate, Spray[]>()
  for (const { block: treated, targets, spray, product } of applicationsOf(ledger, ledger.sprays)) {
    if (treated.id !== block || !targets.includes(disease)) continue
    const rows = spray.rows ? { from: spray.rows.low, to: spray.rows.high } : null
    const day = days.get(spray.date) ?? []
    day.push({ date: spray.date, product: product.id, rows })
    days.set(spray.date, day)
  }
  return days
}

/** Those from one day to the day before another. */
const between = (sprays: SpraysByDay, { from, to }: { from: IsoDate; to: IsoDate }) =>
  Array.from({ length: daysBetween(from, to) }, (_, after) => sprays.get(addDays(from, after)) ?? []).flat()

function stateOf(row: RoundRow, { input, precision }: { input: ReportInput; precision: number }) {
  const { block, disease, organ, date, incidence, looked } = row
  const threshold = thresholdOf(input.ledger, { block, disease, organ })
  const verdict = verdictOn(row, threshold)
  const moreForPrecision = unitsForPrecision({ share: incidence, looked }, { halfWidth: precision })
  return {
    block,
    disease,
    organ,
    date,
    daysSince: daysBetween(date, input.asOf),
    threshold,
    /** Against the threshold: over or under with the whole interval, else near. */
    verdict,
    /** More units to look at for the precision wanted. */
    moreForPrecision,
  }
}

/**
 * Against the threshold, by the interval of incidence; severity has none, and where it wasn't scored may be on either
 * side.
 */
function verdictOn(row: RoundRow, threshold: Threshold) {
  const { share, of } = threshold
  if (share === null) return 'no threshold'
  if (row.high < share) return 'under'
  if (of === 'incidence') return row.low > share ? 'over' : 'near'
  const severity = row.found === 0 ? null : valueAgainst(threshold, row)
  return severity === null ? 'near' : severity > share ? 'over' : 'under'
}

function mapsOf(rows: readonly RoundRow[], { ledger }: ReportInput) {
  return rows.flatMap(({ block, disease, date, where, rows: span }) =>
    span
      ? [
          {
            block,
            disease,
            date,
            /** Rows of the block; null where it isn't written. */
            rows: ledger.blocks.get(block)?.rows ?? null,
            ...span,
            where,
          },
        ]
      : [],
  )
}
