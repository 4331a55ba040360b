import type { ReportInput } from '../facts/report.ts'
import { findLedger, NoLedger } from '../ledger/read/find.ts'
import { isBroken } from '../ledger/read/open.ts'
import { seasonOf } from '../ledger/read/seasons.ts'
import type { IsoDate } from '../records/date.ts'
import { readTimeRange, type TimeRange } from '../records/typed/time-range.ts'
import { afterMix, against, asEntry, overWith, recordedAs, stockAfter } from '../reports/mix/against.ts'
import { DoseNeeds } from '../reports/mix/amounts.ts'
import type { MixJob } from '../reports/mix/job.ts'
import { type MixData, mix as report } from '../reports/mix/report.ts'
import { renderMix } from '../reports/mix/terminal.ts'
import { renderShed } from '../reports/mix/terminal-shed.ts'
import { readMixJob } from './mix/job.ts'
import type { Call } from './plumbing/call.ts'
import { type CommandBody, optionsOf } from './plumbing/command.ts'
import { UsageError } from './plumbing/errors.ts'
import { readForecast } from './weather/forecast.ts'

export const mix: CommandBody = {
  options: optionsOf([
    ['--water QUANTITY', 'spray in all (12 L), or per hectare (300 L/ha)'],
    ['--area QUANTITY', 'area to treat, where no block is named; not needed for a dose in g/L'],
    ['--rows RANGE', 'rows of the block, where not all: 1-8'],
    ['--vines COUNT', 'vines of the block, where not all: 12'],
    ['--share SHARE', 'share of the blocks, where not all: "25 %"'],
    ['--spot', 'spot spray: single vines or places until they are wet, with --water in all'],
    ['--tank QUANTITY', 'volume of the tank'],
    [
      '--sprayer ID',
      'sprayer of the ledger: its tank, water, flow and speed; else the only one',
      { ids: 'sprayers' },
    ],
    ['--product ID...', 'product of the ledger and its dose: sulphur-80=3kg/ha', { ids: 'products' }],
    [
      '--dose TEXT...',
      'any product, name=dose: 3 kg/ha, 12 g/L, 150 g in 10 L, 100 mL/hL, 0.2 %, 0.5 L/10000 m2 leaf wall, or a total',
    ],
    ['--max TEXT...', 'most per ground area beside another form of dose: 5 kg/ha, or name=5 kg/ha'],
    ['--for TARGET...', 'what it is against, for the limits of the label'],
    [
      '--dilute QUANTITY',
      'volume that wets to run-off, for concentrate spraying: 1500 L/ha, or L/m3 of canopy',
    ],
    ['--row-spacing QUANTITY', 'from row to row, where no block is named'],
    ['--canopy-height QUANTITY', 'height of leaf wall that is sprayed'],
    ['--canopy-width QUANTITY', 'width of the canopy'],
    ['--flow QUANTITY', 'flow of all nozzles, for the time it takes'],
    ['--speed QUANTITY', 'speed while spraying, for the time it takes'],
    ['--even', 'equal fills in place of full tanks and a part'],
    ['--in-tank QUANTITY', 'clean water already in the tank'],
    ['--scale QUANTITY...', 'step of the scale (5g) or jug (10mL) to round to'],
    ['--at TIME', 'when spraying ends: "2026-06-14 20:05", or from-to'],
    [
      '--forecast FILE',
      'weather to come, for heat after sulphur: CSV by days (date, min_c, max_c) or by hours',
    ],
    ['--shed', 'one page to print and take along'],
  ]),
  examples: [
    ['rowbook mix --water 12L --dose "bicarbonate=150 g in 10 L"', 'a knapsack, by strength alone'],
    ['rowbook mix --area 0.45ha --water "300 L/ha" --tank 200L --dose "sulphur=3 kg/ha"', 'without a ledger'],
    ['rowbook mix --block top-terrace --product sulphur-80=3kg/ha --sprayer mounted', 'from the records'],
    [
      'rowbook mix --area 0.18ha --water "600 L/ha" --tank 16L --dose "bicarbonate=12 g/L" --scale 5g',
      'a knapsack, weighed to 5 g',
    ],
    [
      'rowbook mix --spot --block top-terrace --rows 3-5 --water 8L --product "sulphur-80=5 g/L"',
      'the rows where disease was found',
    ],
  ],
  async run(call) {
    const { report, failed } = mixed(call)
    const render = call.flag('shed') ? renderShed : renderMix
    return call.print(report, render, { status: failed ? 1 : 0 })
  },
}

/** The mix for a command line, and whether a finding is against it. */
export function mixed(call: Call) {
  const input = openBook(call)
  const report = reportOf(call, readMixJob(call, input), input)
  const failed =
    report.data.overLabel.length > 0 ||
    report.findings.some(({ level }) => level === 'error') ||
    report.data.products.some(({ inRange }) => inRange === false)
  return { report, failed }
}

/** The ledger if one is named or needed, else any in this folder, to compare doses with its labels. */
function openBook(call: Call): ReportInput | null {
  const reads = { history: ['sprays', 'stages', 'picks'] } as const
  const needsBook = ['ledger', 'sprayer'].some((name) => call.text(name) !== undefined)
  const names = ['block', 'product'].some((name) => call.texts(name).length > 0)
  if (needsBook || names) return call.open(reads)
  try {
    findLedger(call.env.cwd)
  } catch (error) {
    if (error instanceof NoLedger) return null
    throw error
  }
  const input = call.openAnyway(reads)
  if (!isBroken(input.ledger)) return input
  call.env.err('No label was looked up: the records here have errors. See `rowbook check`.\n')
  return null
}

function reportOf(call: Call, job: MixJob, input: ReportInput | null) {
  const at = readAt(call)
  const asOf = at?.date ?? input?.asOf ?? call.reportDay()
  try {
    const { units } = call.style()
    const plain = report(job, { asOf, season: input?.season ?? null, units })
    if (!input) return plain
    const heatAhead = readForecast(call)?.highest
    const time = at?.time ?? null
    const known = standing(job, input, { date: asOf, time, made: plain.data, heatAhead })
    return report(job, { asOf, season: input.season, units, ...known })
  } catch (error) {
    if (error instanceof DoseNeeds) throw new UsageError(error.message, NEEDS[error.needs])
    if (error instanceof RangeError)
      throw new UsageError(`these figures make no mix: ${error.message}`, 'check areas, volumes and doses')
    throw error
  }
}

const NEEDS = {
  area: 'this dose is per ground area: name it with --block ID or --area 0.05ha; or give the strength: --dose "sulphur=5 g/L"',
  dilutePerHa: 'give the volume that wets to run-off: --dilute "1500 L/ha"',
  leafWallPerHa: 'give --row-spacing and --canopy-height, or write the canopy into the block',
  waterPerHa: 'give --water',
}

/** What follows from the mix, and what the rules say against it, where the ledger knows its products. */
function standing(
  job: MixJob,
  { ledger }: ReportInput,
  on: { date: IsoDate; time: TimeRange | null; made: MixData; heatAhead: Map<number, number> | undefined },
) {
  const { date, time, made, heatAhead } = on
  const { sprayer, blocks = [] } = job
  const about = { date, season: seasonOf(ledger.vineyard, date), ...(time && { time }) }
  const entry = asEntry(job, { ...about, ...(sprayer !== undefined && { sprayer }) }, blocks)
  const recorded = recordedAs(ledger, entry)
  // A spray that is recorded is judged once, as this mix.
  const before = recorded ? { ...ledger, sprays: ledger.sprays.filter((one) => one !== recorded) } : ledger
  const overLabel = overWith(made.overLabel, before, entry)
  const parts = job.parts.flatMap(({ product, targets }) => (product ? [{ product, targets }] : []))
  const after = afterMix({ date, time: time ?? recorded?.time }, parts, before, overLabel)
  // A recorded spray has already been subtracted from the stock.
  const stock = stockAfter(ledger, date, overLabel.length > 0 || recorded ? [] : made.products)
  return { after: { ...after, stock }, overLabel, findings: against(before, entry, heatAhead), recorded }
}

/** A day, and behind it clock times, which a colon, a point or am and pm tell from the day. */
const AT = /^(.*?)(?:(?:T|\s{1,9})(\d{1,2}(?:[:.h]\d|\s{0,9}[ap]\.?m).*))?$/i

/** `DATE`, `DATE HH:MM` (when spraying ends) or `DATE HH:MM-HH:MM`. */
function readAt(call: Call): { date: IsoDate; time: TimeRange | null } | null {
  const text = call.text('at')
  if (text === undefined) return null
  const [, day = '', clock] = AT.exec(text.trim()) ?? []
  const date = call.dayIn('at', day)
  if (clock === undefined) return { date, time: null }
  const { range, fault } = readTimeRange(clock)
  if (fault) throw new UsageError(`--at: ${fault.message}`, fault.help)
  return { date, time: range.end === null ? { start: range.start, end: range.start } : range }
}
