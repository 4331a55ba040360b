import type { Report } from '../../facts/report.ts'
import type { BlockWindow } from '../../facts/window/block-window.ts'
import { sayLastSprays } from '../../facts/window/last-sprays.ts'
import { daysBetween } from '../../records/date.ts'
import { shortDate, spokenDate } from '../../records/spoken-date.ts'
import { renderCourse } from '../../render/course.ts'
import { dateOr, figure, figureOr } from '../../render/figure.ts'
import { renderSpans } from '../../render/spans.ts'
import type { Style } from '../../render/style.ts'
import { renderTable } from '../../render/table.ts'
import { renderCautions, wrap } from '../../render/text.ts'
import type { Backtest } from './backtest.ts'
import { windowChart } from './chart.ts'
import type { WindowBlock, WindowData } from './report.ts'

const METHODS = {
  'sugar-trend': 'samples',
  'heat-sum': 'heat sum',
  'days-after-veraison': 'days after veraison',
  combined: 'all together',
} as const

/** The dates in one sentence, then block by block what each method says and why. */
export function renderWindow(
  report: Report<WindowData>,
  names: ReadonlyMap<string, string>,
  style: Style,
): string {
  const { blocks, backtest } = report.data
  if (blocks.length === 0) return 'There is no block in the book.\n'
  const first = blocks.map((block) => headline(block, names.get(block.block) ?? block.block)).join(' ')
  const pages = blocks.map((block) => page(block, { name: names.get(block.block) ?? block.block, style }))
  const spans = renderSpans(
    windowChart(blocks, (block) => names.get(block) ?? block),
    style,
  )
  const note =
    'Each date is the day on which the mean sugar of the block reaches the target; earliest and latest end a 90 % interval. Weights go by the width of each interval (inverse variance); where methods disagree, the interval is widened.'
  const tested = backtest ? `\n${renderBacktest(backtest, { names, style })}` : ''
  return `${wrap(first, style.columns)}\n\n${spans && `${spans}\n`}${pages.join('\n')}${tested}\n${wrap(note, style.columns)}\n${renderCautions(report.cautions, style.columns)}`
}

function headline(block: BlockWindow, name: string): string {
  const picked = block.picked === null ? '' : ` It was picked on ${spokenDate(block.picked)}.`
  if (block.likely === null) return `${name}: no date can be told.${picked}`
  const range =
    block.earliest === null || block.latest === null
      ? ' (no interval)'
      : ` (${shortDate(block.earliest)} to ${shortDate(block.latest)})`
  return `${name} reaches ${block.target} Brix about ${spokenDate(block.likely)}${range}.${picked}`
}

function page(block: WindowBlock, { name, style }: { name: string; style: Style }): string {
  const target = block.target === null ? 'no target' : `${block.target} Brix, ${block.targetSource}`
  const sample = block.lastSample
    ? `; last sample ${figure(block.lastSample.brix, 1)} Brix on ${shortDate(block.lastSample.date)}`
    : ''
  const head = `${style.paint.strong(name)}: ${target}${sample}`
  const rows = block.methods.map((method) => [
    METHODS[method.method],
    dateOr(method.earliest),
    dateOr(method.likely),
    dateOr(method.latest),
    method.weight > 0 ? figure(method.weight, 2) : '-',
  ])
  rows.push([METHODS.combined, dateOr(block.earliest), dateOr(block.likely), dateOr(block.latest), ''])
  const table = renderTable(
    [
      { title: '' },
      { title: 'earliest', align: 'right' },
      { title: 'likely', align: 'right' },
      { title: 'latest', align: 'right' },
      { title: 'weight', align: 'right' },
    ],
    rows,
  )
  const reasons = block.methods.map(({ method, why }) => `${METHODS[method]}: ${why}.`)
  const legal = block.legalFrom === null ? [] : [legalLine(block)]
  const lines = [
    ...pressLine(block),
    ...(block.why ? [`All together: ${block.why}.`] : []),
    ...reasons,
    ...legal,
    ...(block.lastSprays
      ? [`Sprayed today for that window, by days before harvest alone: ${sayLastSprays(block.lastSprays)}.`]
      : []),
    ...block.conflicts.map((conflict) => style.paint.doubtful(conflict)),
  ]
  const course = block.chart ? renderCourse(block.chart, style) : ''
  return `${head}\n${block.methods.length > 0 ? table : ''}${course}${lines.map((line) => wrap(line, style.columns, '  ')).join('\n')}\n`
}

function pressLine({ pressBias }: BlockWindow): string[] {
  if (pressBias === null) return []
  const { brix, picks, why } = pressBias
  if (brix === null) return [`Nothing is added for the press: ${why}.`]
  return [
    `${figure(brix, 1)} Brix added to the samples, as the press read in ${picks} past pick${picks === 1 ? '' : 's'}${why ? ` (${why})` : ''}.`,
  ]
}

function legalLine({ legalFrom, legalFromCalendar: calendar }: BlockWindow): string {
  const other =
    calendar === null || calendar === legalFrom
      ? ''
      : ` (${shortDate(calendar)} counting the day of spraying as day 0)`
  return `By days before harvest, picking is allowed from ${spokenDate(legalFrom!)}${other}.`
}

function renderBacktest(
  { rows, summary, rule }: Backtest,
  { names, style }: { names: ReadonlyMap<string, string>; style: Style },
): string {
  if (rows.length === 0) return 'Looking back: no earlier season has picks.\n'
  const told = summary.filter(({ asked }) => asked > 0)
  const table = renderTable(
    [
      { title: 'looking back' },
      { title: 'days\nbefore', align: 'right' },
      { title: 'told', align: 'right' },
      { title: 'mean\nerror', align: 'right' },
      { title: 'mean\nsize', align: 'right' },
      { title: 'width', align: 'right' },
      { title: 'held\nthe pick', align: 'right' },
      { title: 'target\nday off', align: 'right' },
      { title: 'held\nthat', align: 'right' },
    ],
    told.map((one) => [
      METHODS[one.method],
      String(one.lead),
      `${one.told} of ${one.asked}`,
      one.meanError === null ? '-' : `${one.meanError > 0 ? '+' : ''}${figure(one.meanError, 1)} d`,
      one.meanSize === null ? '-' : `${figure(one.meanSize, 1)} d`,
      one.meanWidth === null ? '-' : `${figure(one.meanWidth, 0)} d`,
      one.coverage === null ? '-' : `${Math.round(one.coverage * one.withInterval)} of ${one.withInterval}`,
      one.meanSizeToReached === null ? '-' : `${figure(one.meanSizeToReached, 1)} d`,
      one.reachedCoverage === null
        ? '-'
        : `${Math.round(one.reachedCoverage * one.reachedKnown)} of ${one.reachedKnown}`,
    ]),
  )
  const all = renderTable(
    [
      { title: 'picked' },
      { title: 'block', most: 18 },
      { title: 'days\nbefore', align: 'right' },
      { title: 'said', align: 'right' },
      { title: 'interval' },
      { title: 'error', align: 'right' },
    ],
    rows
      .filter(({ method }) => method === 'combined')
      .map((row) => [
        `${shortDate(row.picked)} ${row.season}`,
        names.get(row.block) ?? row.block,
        String(row.lead),
        dateOr(row.likely),
        row.earliest === null || row.latest === null
          ? '-'
          : `${shortDate(row.earliest)} to ${shortDate(row.latest)} (${daysBetween(row.earliest, row.latest)} d)`,
        row.error === null ? '-' : `${row.error > 0 ? '+' : ''}${figureOr(row.error, 0)} d`,
      ]),
  )
  return `${table}\nAll together, pick by pick:\n${all}\n${wrap(rule, style.columns)}\n`
}
