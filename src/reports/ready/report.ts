import { entriesOf } from '../../facts/block-entries.ts'
import { hangingCrop } from '../../facts/crop/estimate.ts'
import { type DangerJudge, dangerJudge, plainDanger } from '../../facts/danger/danger.ts'
import { RECENT_DAYS } from '../../facts/danger/weather-rank.ts'
import { sitePressure } from '../../facts/disease/course.ts'
import { shareHanging } from '../../facts/hanging.ts'
import { growingSpan } from '../../facts/heat/window.ts'
import { inLedgerUnits, unitsOf } from '../../facts/ledger-units.ts'
import { onDemand } from '../../facts/on-demand.ts'
import { type Asked, GATES, type Gate } from '../../facts/picking/gate.ts'
import { lateSulphurNote } from '../../facts/picking/late-sulphur.ts'
import { type Placed, pickingOrder, pressRoom } from '../../facts/picking/order.ts'
import { ownErrors } from '../../facts/picking/records.ts'
import { pickAdvice, saysNow } from '../../facts/picking/rot.ts'
import { gatesOf, turnOf, verdictOf } from '../../facts/picking/verdict.ts'
import { CAUTION, makeReport, type Report, type ReportInput } from '../../facts/report.ts'
import { spraysOf } from '../../facts/spraying/legal-from.ts'
import { windowOf } from '../../facts/window/block-window.ts'
import type { Finding } from '../../ledger/read/finding.ts'
import { isBroken } from '../../ledger/read/open.ts'
import { latestOf } from '../../records/date.ts'
import { errorsOf } from '../../rules/season-errors.ts'
import { type Forecast, pressureAhead, rainAhead } from './ahead.ts'

interface ReadyOptions {
  forecast?: Forecast | undefined
  /** Adds to the samples what the press has read above the field in past picks. */
  asPressed?: boolean | undefined
}

export type ReadyBlock = ReturnType<typeof pageOf>

export interface ReadyData {
  blocks: ReadyBlock[]
  /** The picking order of the blocks that can be picked, or that only a date holds back. */
  order: Placed[]
  /** Whether the press can take them in one day; null where all fits, or only one block can be picked. */
  press: string | null
}

/** The checks before picking, block by block, and the verdict from them. Missing data never passes. */
export function ready(input: ReportInput, options: ReadyOptions = {}): Report<ReadyData> {
  const { ledger, blocks, ...on } = input
  const cautions = [CAUTION.clearance, CAUTION.estimate]
  if (isBroken(ledger)) {
    const findings = ledger.findings.filter(({ level }) => level === 'error')
    return makeReport('ready', input, {
      data: { blocks: blocks.map(({ id }) => broken(id, findings)), order: [], press: null },
      findings,
      cautions,
    })
  }
  const errors = errorsOf({ ledger, ...on })
  // Of all diseases the danger of botrytis alone is reported.
  const danger = dangerJudge(input, sitePressure(input, RECENT_DAYS))
  const pages = blocks.map((block) => pageOf({ ledger, ...on, block }, { errors, options, danger }))
  const order = pickingOrder(pages.map((page) => ({ ...page, over: isOver(page) })))
  const ripe = pages
    .filter(({ verdict, advice, picked }) => picked === null && (verdict === 'ready' || saysNow(advice)))
    .map(({ block }) => ({ block, crop: hangingCrop(ledger, ledger.blocks.get(block)!, input).estimate }))
  const data = { blocks: pages, order, press: pressRoom(ledger, order, ripe) }
  const own = new Set(blocks.flatMap((block) => ownErrors({ ledger, ...on, block }, errors)))
  const findings = errors.filter((error) => own.has(error))
  return makeReport('ready', input, { data, findings, cautions })
}

/** Checks that go by the labels of what was sprayed. */
const BY_LABEL: ReadonlySet<string> = new Set(['before-harvest', 're-entry'])

/** What to do next, once each; in winter, what is unknown is no task yet, except of the labels of sprays. */
function todoOf(gates: readonly Gate[], asked: Asked): string[] {
  const { ledger, season, asOf, block } = asked
  const winter = asOf < growingSpan(ledger.vineyard, season).from
  const isSprayed = winter && spraysOf(ledger, { ...asked, block: block.id }).length > 0
  const isTask = ({ gate, state }: Gate) =>
    !winter || state !== 'unknown' || (isSprayed && BY_LABEL.has(gate))
  const todo = gates.filter(isTask).flatMap(({ todo }) => todo ?? [])
  return [...new Set(winter ? [...todo, 'Scout, sample and count once bunches hang.'] : todo)]
}

/** Whether the sugar gate says that the sample is above the range already. */
const isOver = ({ gates }: ReadyBlock) =>
  gates.some(({ gate, detail }) => gate === 'sugar' && detail.endsWith('above the range already'))

interface Shared {
  errors: Finding[]
  options: ReadyOptions
  danger: DangerJudge
}

function pageOf(asked: Asked, { errors, options, danger }: Shared) {
  const { ledger, block, asOf } = asked
  const { forecast, asPressed = false } = options
  const window = windowOf(block, asked, { forecast: forecast?.means, asPressed })
  const { conflicts, likely } = window
  const ahead = onDemand({ ta: () => window.acid, ph: () => window.ph })
  const { gates, legal, until } = gatesOf(asked, { errors, asPressed, ahead })
  const isGone = shareHanging(ledger, { ...asked, block: block.id }) === 0
  const verdict = verdictOf(gates)
  const rain = rainAhead(asOf, forecast?.rain)
  const inUnits = (line: string | null) => line && inLedgerUnits(line, unitsOf(ledger))
  return {
    block: block.id,
    verdict,
    /** Advice in addition to the verdict, where rot outweighs further ripening; else null. */
    advice: isGone ? null : pickAdvice(asked, { gates, rain: rain.sum, likely }),
    /** Danger of botrytis; null where the vineyard doesn't judge it. */
    danger: danger.diseases.includes('botrytis') ? plainDanger(danger.on(block.id, 'botrytis', asOf)) : null,
    /** Seeds, skins and taste as they were written down with the last sample that has them. */
    observed: observedIn(asked),
    gates,
    legalFrom: legal.date,
    window: { earliest: window.earliest, likely, latest: window.latest },
    /** The date on which a verdict other than `ready` may change; null where it doesn't depend on dates. */
    turns: turnOf(gates, { verdict, asOf, legalFrom: legal.date, until, likely }),
    /** What to do until then; nothing for a block that was picked. */
    todo: isGone ? [] : todoOf(gates, asked),
    conflicts,
    /** Sulphur sprayed so late that it can reach the must; null where none was. */
    sulphur: isGone
      ? null
      : lateSulphurNote(asked, latestOf([asOf, legal.date, likely].flatMap((day) => day ?? []))!),
    rain: inUnits(rain.text),
    /** What the forecast says of disease; null where none was given. */
    pressure: inUnits(pressureAhead(asked, forecast)),
    /** Brix added to the samples for what the press has read above the field; null where not asked for. */
    pressBias: window.pressBias,
    /** Where the block was picked this season already, and nothing hangs. */
    picked: isGone ? pickedIn(asked) : null,
  }
}

/** The day of the last pick, and the weight of all. */
function pickedIn({ ledger, block, ...on }: Asked) {
  const picks = entriesOf(ledger.picks, { ...on, block: block.id })
  const kg = picks.reduce((sum, { weight }) => sum + weight, 0)
  return { date: picks.at(-1)!.date, weight: { value: kg, unit: 'kg' } }
}

/**
 * What somebody wrote of seeds, skins and taste, each from the last sample that has it: shown, never calculated with.
 */
function observedIn({ ledger, block, ...on }: Asked) {
  const samples = entriesOf(ledger.samples, { ...on, block: block.id })
  return (['seeds', 'skins', 'taste'] as const).flatMap((what) => {
    const last = samples.findLast((one) => one[what] !== undefined)
    return last ? [{ date: last.date, what, text: last[what]! }] : []
  })
}

/** While records are broken nothing can be trusted: the records gate fails, and the others are unknown. */
function broken(block: string, findings: readonly Finding[]): ReadyBlock {
  const first = findings[0]!
  const todo = 'Correct the records that `rowbook check` lists.'
  const gates = GATES.map((gate): Gate => {
    if (gate === 'records') {
      const detail = `${first.file}:${first.line} ${first.name}: ${first.message}`
      return { gate, state: 'fail', short: `${findings.length} broken`, todo, detail }
    }
    const detail = 'not checked while the records have errors'
    const unknown: Gate = { gate, state: 'unknown', short: 'unknown', todo: null, detail }
    return gate === 're-entry' ? { ...unknown, until: null } : unknown
  })
  return {
    block,
    verdict: 'stop',
    advice: null,
    danger: null,
    observed: [],
    gates,
    legalFrom: null,
    turns: null,
    conflicts: [],
    sulphur: null,
    rain: null,
    pressure: null,
    pressBias: null,
    picked: null,
    window: { earliest: null, likely: null, latest: null },
    todo: [todo],
  }
}
