import type { ReportInput } from '../../facts/report.ts'
import { windowOf } from '../../facts/window/block-window.ts'
import { dayReached } from '../../facts/window/past.ts'
import type { Named, PickEntry } from '../../ledger/read/ledger.ts'
import { addDays, daysBetween, type IsoDate, isoDate } from '../../records/date.ts'
import type { Block } from '../../records/kinds/block.ts'

/** Days before the pick on which the window is tested. */
const LEADS = [28, 21, 14, 7] as const

/** The window given on one day before one pick. */
type BacktestRow = ReturnType<typeof rowOf>

type BacktestSummary = ReturnType<typeof summarise>[number]

export interface Backtest {
  rows: BacktestRow[]
  summary: BacktestSummary[]
  /** What was allowed to be known, and what the error is measured against. */
  rule: string
}

const RULE =
  'Each window is calculated again for its day, with only what was known by then. The error is against the day of the first pick. Sugar need not have reached the target on that day. So the day when it did, by later samples and the press, is compared beside it.'

/** The window before each past pick, compared with the pick. */
export function backtest(input: ReportInput, target?: number): Backtest {
  const wanted = new Map(input.blocks.map((block) => [block.id, block]))
  const rows = firstPicks(input).flatMap((pick) => {
    const block = wanted.get(pick.block)
    return block ? LEADS.map((lead) => rowOf(block, { pick, lead, input, target })) : []
  })
  return { rows, summary: summarise(rows), rule: RULE }
}

/** The first pick of each block in each season, oldest first. */
function firstPicks({ ledger, asOf }: ReportInput): PickEntry[] {
  const seen = new Set<string>()
  return ledger.picks.filter((pick) => {
    const key = `${pick.season} ${pick.block}`
    if (pick.date > asOf || seen.has(key)) return false
    seen.add(key)
    return true
  })
}

function rowOf(
  block: Named<Block>,
  {
    pick,
    lead,
    input,
    target,
  }: { pick: PickEntry; lead: number; input: ReportInput; target: number | undefined },
) {
  const asOf = addDays(pick.date, -lead)
  const said = windowOf(
    block,
    { ledger: input.ledger, season: pick.season, asOf },
    { target, expected: true },
  )
  const passed =
    said.target === null
      ? null
      : dayReached(input.ledger, { block: block.id, season: pick.season, target: said.target })
  const reached = passed === null ? null : isoDate(Math.round(passed))
  const within = (day: IsoDate | null, [from, to]: [IsoDate | null, IsoDate | null]) =>
    day === null || from === null ? null : from <= day && (to === null || day <= to)
  const { earliest, likely, latest } = said
  return {
    season: pick.season,
    block: block.id,
    picked: pick.date,
    /** Days before the pick. */
    lead,
    earliest,
    likely,
    latest,
    /** Days by which the likely date was later than the pick (negative: earlier). */
    error: likely === null ? null : daysBetween(pick.date, likely),
    /** Whether the interval held the pick, an open end all later days; null where there was none. */
    inside: within(pick.date, [earliest, latest]),
    /** With hindsight, the day on which the season's samples and press passed the target; null where they never did. */
    reached,
    errorToReached: likely === null || reached === null ? null : daysBetween(reached, likely),
    reachedInside: within(reached, [earliest, latest]),
  }
}

function summarise(rows: readonly BacktestRow[]) {
  return LEADS.map((lead) => {
    const of = rows.filter((row) => row.lead === lead)
    const errors = of.flatMap(({ error }) => error ?? [])
    const held = of.flatMap(({ inside }) => inside ?? [])
    const widths = of.flatMap(({ earliest, latest }) =>
      earliest === null || latest === null ? [] : daysBetween(earliest, latest),
    )
    return {
      lead,
      /** Picks asked about, those with a likely date, and those with an interval. */
      asked: of.length,
      told: errors.length,
      withInterval: held.length,
      /** Days: mean error, mean size of the error, mean width of the interval. */
      meanError: mean(errors),
      meanSize: mean(errors.map(Math.abs)),
      meanWidth: mean(widths),
      /** Share of the intervals that held the pick, 0 to 1. */
      coverage: mean(held.map(Number)),
      /** The same against the day on which the target was passed. */
      meanSizeToReached: mean(of.flatMap(({ errorToReached }) => errorToReached ?? []).map(Math.abs)),
      reachedCoverage: mean(of.flatMap(({ reachedInside }) => reachedInside ?? []).map(Number)),
      reachedKnown: of.flatMap(({ reachedInside }) => reachedInside ?? []).length,
    }
  })
}

const mean = (values: readonly number[]): number | null =>
  values.length === 0 ? null : values.reduce((sum, value) => sum + value, 0) / values.length
