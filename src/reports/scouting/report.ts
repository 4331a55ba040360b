import { unitsForPrecision, unitsToDetect } from '../../agronomy/disease/detection.ts'
import { incidenceDifference } from '../../agronomy/disease/incidence-difference.ts'
import { findAdvice } from '../../facts/danger/advice.ts'
import { dangerJudge } from '../../facts/danger/danger.ts'
import { followUps, treatments } from '../../facts/danger/follow-up.ts'
import { type RoundRow, roundsOf } from '../../facts/disease/round-rows.ts'
import { type Threshold, thresholdOf, valueAgainst } from '../../facts/disease/threshold.ts'
import { groupedBy } from '../../facts/judged.ts'
import { CAUTION, makeReport, type ReportInput } from '../../facts/report.ts'
import { windowOf } from '../../facts/window/block-window.ts'
import { addDays, daysBetween } from '../../records/date.ts'
import { DISEASES } from '../../records/disease.ts'

interface ScoutingOptions {
  /** Half width of the interval that is wanted, as a share. */
  precision?: number | undefined
  /** Share that is to be found with 95 % confidence. */
  detect?: number | undefined
}

export type ScoutingTrend = ReturnType<typeof trendsOf>[number]

/** Where in a block a disease was found by a scouting round that said so. */
export type RowMap = ReturnType<typeof mapsOf>[number]

export type ScoutingData = ReturnType<typeof scouting>['data']

/** Disease found: every scouting round of the season with its uncertainty, and the change since the round before. */
export function scouting(input: ReportInput, options: ScoutingOptions = {}) {
  const { season, asOf, blocks } = input
  const { precision = 0.05, detect = 0.03 } = options
  const walks = roundsOf(input)
  // Rounds of one block, disease and organ together, oldest first.
  const all = [...groupedBy(walks, ({ block, disease, organ }) => `${block} ${disease} ${organ}`).values()]
  const series = blocks.flatMap(({ id }) =>
    DISEASES.flatMap((disease) => all.filter(([row]) => row!.block === id && row!.disease === disease)),
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

function trendsOf(rows: readonly RoundRow[], input: ReportInput) {
  return rows.slice(1).flatMap((now, at) => {
    const { block, disease, organ, date: to } = now
    const { date: from, ...then } = rows[at]!
    const difference = incidenceDifference(
      { affected: then.found, looked: then.looked },
      { affected: now.found, looked: now.looked },
    )
    if (!difference) return []
    // The sprays between the two rounds, those of the earlier day included.
    const sprays = treatments(input, { block, disease, from, to: addDays(to, -1) })
    return [{ block, disease, organ, from, to, ...difference, sprays }]
  })
}

/** The state of a disease on an organ of a block, by the newest scouting round that looked. */
function stateOf(row: RoundRow, { input, precision }: { input: ReportInput; precision: number }) {
  const { block, disease, organ, date, incidence, looked } = row
  const threshold = thresholdOf(input.ledger, row)
  return {
    block,
    disease,
    organ,
    date,
    daysSince: daysBetween(date, input.asOf),
    threshold,
    /** Against the threshold: over or under with the whole interval, else near. */
    verdict: verdictOn(row, threshold),
    /** More units to look at for the precision wanted. */
    moreForPrecision: unitsForPrecision({ share: incidence, looked }, { halfWidth: precision }),
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

function mapsOf(walks: readonly RoundRow[], { ledger }: ReportInput) {
  return walks.flatMap(({ block, disease, date, where, rows: span }) => {
    // Rows of the block; null where it isn't written.
    const rows = ledger.blocks.get(block)?.rows ?? null
    return span ? [{ block, disease, date, rows, ...span, where }] : []
  })
}
