import type { EveryHour } from '../../agronomy/weather/weather-hours.ts'
import { ESTIMATE_CAUTIONS, SPRAY_CAUTIONS } from '../../facts/cautions.ts'
import { type Asked, GATES, type Gate } from '../../facts/picking/gate.ts'
import { gatesOf } from '../../facts/picking/gates.ts'
import { ownErrors } from '../../facts/picking/records.ts'
import { turnOf, type Verdict, verdictOf } from '../../facts/picking/verdict.ts'
import { makeReport, type Report, type ReportInput } from '../../facts/report.ts'
import { type BlockWindow, windowOf } from '../../facts/window/block-window.ts'
import type { DayMeans } from '../../facts/window/temperatures.ts'
import type { Finding } from '../../ledger/read/finding.ts'
import { isBroken } from '../../ledger/read/open.ts'
import type { IsoDate } from '../../records/date.ts'
import type { Quantity } from '../../records/quantity.ts'
import { errorsOf } from '../../rules/season-errors.ts'
import { pressureAhead } from './pressure-ahead.ts'
import { rainAhead } from './rain-ahead.ts'

interface ReadyOptions {
  forecast?: { means: DayMeans; rain: ReadonlyMap<number, number>; hours?: EveryHour | null } | undefined
  /** Adds to the samples what the press has read above the field in past picks. */
  asPressed?: boolean | undefined
}

export interface ReadyBlock {
  block: string
  verdict: Verdict
  gates: (Gate & {
    until?: string | null
    probability?: number | null
    estimate?: Quantity | null
    low?: Quantity | null
    high?: Quantity | null
  })[]
  legalFrom: IsoDate | null
  window: { earliest: IsoDate | null; likely: IsoDate | null; latest: IsoDate | null }
  /** When a verdict other than `ready` may turn, as far as dates decide; null where they don't. */
  turns: IsoDate | null
  /** What to do until then. */
  todo: string[]
  conflicts: string[]
  rain: string | null
  /** What the forecast says of disease; null where none was given. */
  pressure: string | null
  /** Brix added to the samples for what the press has read above the field; null where not asked for. */
  pressBias: BlockWindow['pressBias']
  /** Where the block was picked this season already. */
  picked: { date: IsoDate; weight: Quantity } | null
}

export interface ReadyData {
  blocks: ReadyBlock[]
}

/** The gates before picking, block by block, and the word that follows from them. Never a pass on missing data. */
export function ready(input: ReportInput, options: ReadyOptions = {}): Report<ReadyData> {
  const { ledger, blocks, ...on } = input
  const cautions = [...SPRAY_CAUTIONS, ...ESTIMATE_CAUTIONS]
  if (isBroken(ledger)) {
    const findings = ledger.findings.filter(({ level }) => level === 'error')
    return makeReport('ready', input, {
      data: { blocks: blocks.map(({ id }) => broken(id, findings)) },
      findings,
      cautions,
    })
  }
  const errors = errorsOf({ ledger, ...on })
  const data = { blocks: blocks.map((block) => pageOf({ ledger, ...on, block }, { errors, options })) }
  const own = new Set(blocks.flatMap((block) => ownErrors({ ledger, ...on, block }, errors)))
  const findings = errors.filter((error) => own.has(error))
  return makeReport('ready', input, { data, findings, cautions })
}

function pageOf(asked: Asked, { errors, options }: { errors: Finding[]; options: ReadyOptions }): ReadyBlock {
  const { ledger, block, season, asOf } = asked
  const { gates, legal, reEntry } = gatesOf(asked, { errors, asPressed: options.asPressed ?? false })
  const window = windowOf(block, asked, {
    forecast: options.forecast?.means,
    asPressed: options.asPressed,
  })
  const pick = ledger.picks.findLast(
    (one) => one.block === block.id && one.season === season && one.date <= asOf,
  )
  const verdict = verdictOf(gates)
  return {
    block: block.id,
    verdict,
    gates,
    legalFrom: legal.date,
    window: { earliest: window.earliest, likely: window.likely, latest: window.latest },
    turns: turnOf(gates, {
      verdict,
      asOf,
      legalFrom: legal.date,
      until: reEntry.until,
      likely: window.likely,
    }),
    todo: [...new Set(gates.flatMap(({ todo }) => todo ?? []))],
    conflicts: window.conflicts,
    rain: rainAhead(asOf, options.forecast?.rain),
    pressure: pressureAhead(
      asked,
      options.forecast && { ...options.forecast, hours: options.forecast.hours ?? null },
    ),
    pressBias: window.pressBias,
    picked: pick ? { date: pick.date, weight: { value: pick.weight, unit: 'kg' } } : null,
  }
}

/** While records are broken nothing can be trusted: the records gate fails, and the others can't be told. */
function broken(block: string, findings: readonly Finding[]): ReadyBlock {
  const first = findings[0]!
  const gates = GATES.map((gate): ReadyBlock['gates'][number] =>
    gate === 'records'
      ? {
          gate,
          state: 'fail',
          short: `${findings.length} broken`,
          todo: 'Repair the records that `rowbook check` lists.',
          detail: `${first.file}:${first.line} ${first.name}: ${first.message}`,
        }
      : {
          gate,
          state: 'unknown',
          short: 'unknown',
          todo: null,
          detail: 'not judged while records are broken',
          ...(gate === 're-entry' ? { until: null } : {}),
        },
  )
  return {
    block,
    verdict: 'stop',
    gates,
    legalFrom: null,
    turns: null,
    conflicts: [],
    rain: null,
    pressure: null,
    pressBias: null,
    picked: null,
    window: { earliest: null, likely: null, latest: null },
    todo: ['Repair the records that `rowbook check` lists.'],
  }
}
