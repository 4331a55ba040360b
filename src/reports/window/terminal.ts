import { inLedgerUnits } from '../../facts/ledger-units.ts'
import type { Names } from '../../facts/names.ts'
import type { Report } from '../../facts/report.ts'
import { sampleDayText } from '../../facts/ripeness/sample-day.ts'
import type { BlockWindow } from '../../facts/window/block-window.ts'
import { lastSpraysText } from '../../facts/window/last-sprays.ts'
import { acidText, nextSampleText, windowText } from '../../facts/window/sentences.ts'
import { usesText } from '../../facts/window/uses.ts'
import { daysBetween, type IsoDate } from '../../records/date.ts'
import { shortDate, spokenDate } from '../../records/spoken-date.ts'
import { numbers, words } from '../../render/columns.ts'
import { renderCourse } from '../../render/course.ts'
import { dateOr, figure, orDash, signed } from '../../render/figure.ts'
import { renderSpans } from '../../render/spans.ts'
import type { Style } from '../../render/style.ts'
import { renderTable } from '../../render/table.ts'
import { counted, sentences, underAnswer, wrap, wrapAll } from '../../render/text.ts'
import type { Backtest } from './backtest.ts'
import { allWindows, type WindowBlock, type WindowData } from './report.ts'

/** The dates in one sentence, then block by block the chance and what it is based on. */
export function renderWindow(
  report: Report<WindowData>,
  style: Style,
  { blocks: names, products }: Names,
): string {
  const { blocks, backtest } = report.data
  if (blocks.length === 0) return 'No block is recorded.\n'
  const { asOf } = report
  const nameOf = (block: string) => names.get(block) ?? block
  const first = blocks.map((block) => headline(block, nameOf(block.block))).join(' ')
  const pages = blocks.map((block) => page(block, { name: nameOf(block.block), products, asOf, style }))
  const spans = renderSpans(allWindows(blocks, nameOf), style)
  const note = 'Each date is the day on which the mean sugar of the block reaches the target.'
  const tested = backtest ? `\n${renderBacktest(backtest, { nameOf, style })}` : ''
  return underAnswer(
    `${wrap(first, style.columns)}\n\n${spans && `${spans}\n`}${pages.join('\n')}${tested}\n${wrap(note, style.columns)}\n`,
    report.cautions,
    style.columns,
  )
}

function headline(block: BlockWindow, name: string): string {
  const picked = block.picked === null ? '' : ` It was picked on ${spokenDate(block.picked)}.`
  return `${name}${block.why === null ? '' : ':'} ${windowText(block)}.${picked}`
}

function page(
  block: WindowBlock,
  { name, products, asOf, style }: { name: string; products: Names['products']; asOf: IsoDate; style: Style },
): string {
  const target = block.target === null ? 'no target' : `${block.target} Brix, ${block.targetSource}`
  const sample = block.lastSample
    ? `; last sample ${figure(block.lastSample.brix, 1)} Brix on ${shortDate(block.lastSample.date)}${sampleDayText(block.lastSample, 1)}`
    : ''
  const head = wrap(`${style.paint.strong(name)}: ${target}${sample}`, style.columns)
  const lines = sentences(
    pressLine(block),
    block.lastSample?.open && inLedgerUnits(`Last sample ${block.lastSample.open}.`, style.units),
    block.why ? `No date available: ${block.why}.` : usesText(block),
    nextSampleText(block, asOf),
    acidText(block, asOf),
    veraisonLine(block, asOf),
    block.legalFrom && legalLine(block),
    block.lastSprays && `If you spray today, by PHI alone: ${lastSpraysText(block.lastSprays, products)}.`,
    block.conflicts.map(style.paint.doubtful),
  )
  const course = block.chart ? renderCourse(block.chart, style) : ''
  const said = wrapAll(lines, style.columns, '  ')
  return `${head}\n${chanceTable(block, asOf, style.columns)}${course}${said}\n${pastTable(block, style.columns)}`
}

/** Steps of the chance that are printed. */
const SHARES = [0.05, 0.25, 0.5, 0.75, 0.95]

/** The days on which the chance reaches 5, 25, 50, 75 and 95 %. */
function chanceTable({ chance }: BlockWindow, asOf: IsoDate, columns: number): string {
  if (chance.length === 0) return ''
  const percent = (share: number) => `${Math.round(100 * share)} %`
  const dayOf = (wanted: number) => {
    const found = chance.find(({ share }) => share >= wanted)
    return found ? shortDate(found.date) : 'later'
  }
  const today = chance.find(({ date }) => date === asOf)?.share ?? 0
  return renderTable(
    ['reached by'],
    [
      words('chance', String),
      numbers('today', () => percent(today)),
      ...SHARES.map((share) => numbers(percent(share), () => dayOf(share))),
    ],
    columns,
  )
}

function veraisonLine({ veraison, past }: WindowBlock, asOf: IsoDate): string[] {
  if (veraison === null || veraison > asOf) return []
  const usual = past
    .flatMap(({ veraison: then, reached }) => (then && reached ? daysBetween(then, reached) : []))
    .sort((a, b) => a - b)
  const own =
    usual.length === 0
      ? ''
      : `; in past seasons, ${[...new Set([usual[0], usual.at(-1)])].join(' to ')} days from there to the target`
  return [
    `50 % veraison about ${spokenDate(veraison)}, ${counted(daysBetween(veraison, asOf), 'day')} ago${own}.`,
  ]
}

function pastTable({ past }: WindowBlock, columns: number): string {
  if (past.length === 0) return ''
  return renderTable(
    past,
    [
      words('earlier seasons', ({ season }) => season),
      numbers('50 % veraison', ({ veraison }) => dateOr(veraison)),
      numbers('target reached', ({ reached }) => dateOr(reached)),
      numbers('picked', ({ picked }) => dateOr(picked)),
    ],
    columns,
  )
}

function pressLine({ pressBias }: BlockWindow): string[] {
  if (pressBias === null) return []
  const { brix, picks, why } = pressBias
  if (brix === null) return [`No field-to-press difference added: ${why}.`]
  return [
    `Field-to-press difference: ${figure(brix, 1)} Brix added to the samples, from ${counted(picks, 'past pick')}${why ? ` (${why})` : ''}.`,
  ]
}

function legalLine({ legalFrom, legalFromCalendar: calendar }: BlockWindow): string {
  const other =
    calendar === null || calendar === legalFrom
      ? ''
      : ` (${shortDate(calendar)} if the day of spraying counts as day 0)`
  return `Pre-harvest interval (PHI): pick from ${spokenDate(legalFrom!)}${other}.`
}

function renderBacktest(
  { rows, summary, rule }: Backtest,
  { nameOf, style }: { nameOf: (block: string) => string; style: Style },
): string {
  if (rows.length === 0) return 'No picks in earlier seasons to test against.\n'
  const told = summary.filter(({ asked }) => asked > 0)
  const inDays = (days: number | null, decimals: number) =>
    orDash(days, (known) => `${figure(known, decimals)} d`)
  const within = (share: number | null, of: number) =>
    orDash(share, (known) => `${Math.round(known * of)} of ${of}`)
  const table = renderTable(
    told,
    [
      numbers('days\nbefore', ({ lead }) => lead),
      numbers('given', ({ told, asked }) => `${told} of ${asked}`),
      numbers('mean\nerror', ({ meanError }) => orDash(meanError, (days) => `${signed(days, 1)} d`)),
      numbers('mean\nmiss', ({ meanSize }) => inDays(meanSize, 1)),
      numbers('width', ({ meanWidth }) => inDays(meanWidth, 0)),
      numbers('pick\ninside', ({ coverage, withInterval }) => within(coverage, withInterval)),
      numbers('miss of\ntarget day', ({ meanSizeToReached }) => inDays(meanSizeToReached, 1)),
      numbers('target\ninside', ({ reachedCoverage, reachedKnown }) => within(reachedCoverage, reachedKnown)),
    ],
    style.columns,
  )
  const all = renderTable(
    rows,
    [
      words('picked', ({ picked, season }) => `${shortDate(picked)} ${season}`),
      words('block', ({ block }) => nameOf(block), 18),
      numbers('days\nbefore', ({ lead }) => lead),
      numbers('likely', ({ likely }) => dateOr(likely)),
      words('9 times in 10', intervalText),
      numbers('error', ({ error }) => orDash(error, (days) => `${signed(days, 0)} d`)),
    ],
    style.columns,
  )
  return `${table}\nPick by pick:\n${all}\n${wrap(rule, style.columns)}\n`
}

function intervalText({ earliest, latest }: Backtest['rows'][number]): string {
  if (earliest === null) return '-'
  if (latest === null) return `from ${shortDate(earliest)}, no end`
  return `${shortDate(earliest)} to ${shortDate(latest)} (${daysBetween(earliest, latest)} d)`
}
