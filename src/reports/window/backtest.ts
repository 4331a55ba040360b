import type { ReportInput } from '../../facts/report.ts'
import { windowOf } from '../../facts/window/block-window.ts'
import { dayReached } from '../../facts/window/past.ts'
import type { Ledger, Named, PickEntry } from '../../ledger/read/ledger.ts'
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
    return block ? LEADS.map((lead) => rowOf(block, { pick, lead, ledger: input.ledger, target })) : []
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
    ledger,
    target,
  }: { pick: PickEntry; lead: number; ledger: Ledger; target: number | undefined },
) {
  const { season, date } = pick
  const said = windowOf(block, { ledger, season, asOf: addDays(date, -lead) }, { target, expected: true })
  const { earliest, likely, latest } = said
  const passed =
    said.target === null ? null : dayReached(ledger, { block: block.id, season, target: said.target })
  const reached = passed === null ? null : isoDate(Math.round(passed))
  const within = (day: IsoDate | null) =>
    day === null || earliest === null ? null : earliest <= day && (latest === null || day <= latest)
  return {
    season,
    block: block.id,
    picked: date,
    /** Days before the pick. */
    lead,
    earliest,
    likely,
    latest,
    /** Days by which the likely date was later than the pick (negative: earlier). */
    error: likely === null ? null : daysBetween(date, likely),
    /** Whether the interval held the pick, an open end all later days; null where there was none. */
    inside: within(date),
    /** With hindsight, the day on which the season's samples and press passed the target; null where they never did. */
    reached,
    errorToReached: likely === null || reached === null ? null : daysBetween(reached, likely),
    reachedInside: within(reached),
  }
}

function summarise(rows: readonly BacktestRow[]) {
  return LEADS.map((lead) => {
    const of = rows.filter((row) => row.lead === lead)
    const known = <Key extends keyof BacktestRow>(key: Key) => of.flatMap((row) => row[key] ?? [])
    const [errors, held, reached] = [known('error'), known('inside'), known('reachedInside')]
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
      meanSizeToReached: mean(known('errorToReached').map(Math.abs)),
      reachedCoverage: mean(reached.map(Number)),
      reachedKnown: reached.length,
    }
  })
}

const mean = (values: readonly number[]): number | null =>
  values.length === 0 ? null : values.reduce((sum, value) => sum + value, 0) / values.length
