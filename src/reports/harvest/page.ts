import type { Range } from '../../agronomy/crop/harvest-plan.ts'
import { inLedgerUnits } from '../../facts/ledger-units.ts'
import type { Names } from '../../facts/names.ts'
import { listed } from '../../facts/sentences.ts'
import { shortDate, spokenDate } from '../../records/spoken-date.ts'
import { clockText } from '../../records/typed/time-range.ts'
import { type Column, numbers, words } from '../../render/columns.ts'
import { rough, roughRange } from '../../render/figure.ts'
import { dateCell, missingLines, nameOf, numberCell, roughCell, UNKNOWN } from '../../render/html/figures.ts'
import { type Content, html, list, section } from '../../render/html/markup.ts'
import type { PageInput, PageOf } from '../../render/html/page.ts'
import { folded, pageTable } from '../../render/html/table.ts'
import { PLAIN } from '../../render/style.ts'
import { groupDigits } from '../../render/text.ts'
import type { HarvestDay } from './day.ts'
import type { HarvestBlock, HarvestData } from './report.ts'
import { vesselOf } from './settings.ts'
import { dayLines } from './terminal-day.ts'

/** What picking needs, in the order in which the blocks are likely ripe. */
export const page: PageOf<HarvestData> = ({ data }, input) => ({
  title: 'Picking',
  content: [
    dayPart(data, input),
    section(
      'What each block needs',
      planTable(data, input),
      missingLines(data.blocks, input),
      data.blocks.map((block) => pickedPart(block, input.names)),
    ),
    section(
      'Low to high',
      folded('The least and the most of each block', rangeTable(data, input), { filed: true }),
    ),
    section(
      'When to pick',
      dateTable(data, input),
      data.blocks.map(
        ({ block, later }) => later && html`<p class="quiet">${nameOf(input.names, block)}: ${later}.</p>\n`,
      ),
    ),
  ],
})

function allowedFrom({ overLabel, unknown, legalFrom }: HarvestBlock, { products }: Names): Content {
  if (overLabel) return 'over the label: ask'
  if (unknown.length > 0) return `read the label of ${listed(unknown.map((id) => products.get(id) ?? id))}`
  return legalFrom === null ? 'nothing recorded forbids it' : dateCell(legalFrom)
}

function pickedPart({ block, crop, picked }: HarvestBlock, names: Names): Content {
  if (!picked?.rest) return null
  return html`<p class="quiet">${nameOf(names, block)}: picked in part on ${spokenDate(picked.date)}; ${Math.round(picked.rest * 100)} % still to pick${crop && ', which these figures are for'}.</p>\n`
}

const whole = (value: number | null) => numberCell(value && Math.round(value), 0)

function planTable({ blocks, totals, settings }: HarvestData, input: PageInput): Content {
  const vessels = `${vesselOf(settings)}s` as const
  const rows = [
    ...blocks.map((block) => ({ ...block, name: nameOf(input.names, block.block) })),
    { ...totals, name: 'all together' },
  ]
  return pageTable('Likely', rows, [
    words('block', ({ name }) => name),
    numbers('crop', ({ crop }) => roughCell(crop, input)),
    numbers(vessels, (figures) => whole(figures[vessels])),
    numbers('person-hours', ({ personHours }) => numberCell(personHours, 0)),
    numbers('people', ({ people }) => whole(people)),
    numbers('hours', ({ hours }) => numberCell(hours, 1)),
    numbers('juice', ({ juice }) => roughCell(juice, input)),
  ])
}

function rangeTable({ blocks, settings }: HarvestData, input: PageInput): Content {
  const ends = (range: Range | undefined, say: (low: number, high: number) => string) =>
    !range || range.low === null || range.high === null ? UNKNOWN : say(range.low, range.high)
  const span = (range: Range | undefined) =>
    ends(range, (low, high) => `${groupDigits(Math.round(low))} to ${groupDigits(Math.round(high))}`)
  const amount = (range: Range | undefined, unit: string) =>
    ends(range, (low, high) => roughRange({ value: low, unit }, { value: high, unit }, input.units))
  const vessels = `${vesselOf(settings)}s` as const
  return pageTable('Low: low crop, fast picking. High: high crop, slow picking', blocks, [
    words('block', ({ block }) => nameOf(input.names, block)),
    numbers('crop', ({ range }) => amount(range.crop, 'kg')),
    numbers(vessels, ({ range }) => span(range[vessels])),
    numbers('person-hours', ({ range }) => span(range.personHours)),
    numbers('juice', ({ range }) => amount(range.juice, 'L')),
  ])
}

function dateTable({ blocks }: HarvestData, input: PageInput): Content {
  return pageTable('Likely day, and first day that the pre-harvest interval (PHI) allows', blocks, [
    words('block', ({ block }) => nameOf(input.names, block)),
    numbers('order', ({ order }) => order),
    numbers('likely ripe', ({ ripe }) => dateCell(ripe)),
    numbers('allowed from', (block) => allowedFrom(block, input.names)),
    numbers('picking rate, a person-hour', ({ rate }) =>
      rough({ value: rate.value, unit: 'kg' }, input.units),
    ),
    words('from', ({ rate }) => inLedgerUnits(rate.source, input.units)),
  ])
}

/** The day by the hour: blocks in their order, then people, buckets, clippers, and what isn't picked on it. */
function dayPart(data: HarvestData, { names, units }: PageInput): Content {
  const lines = dayLines(data, names.blocks, { columns: 80, units, paint: PLAIN })
  if (lines.length === 0) return null
  const steps = data.day?.steps ?? []
  return section(
    'Picking day',
    steps.length > 0 &&
      pageTable('Blocks in their order; the times count no breaks', steps, stepColumns(names)),
    list(lines),
  )
}

/** Where and when, of an hour of the picking day. */
export const stepColumns = (names: Names): Column<HarvestDay['steps'][number], string>[] => [
  words('block', ({ block }) => nameOf(names, block)),
  words('day', ({ date }) => shortDate(date)),
  words('from', ({ from }) => clockText(from)),
  words('to', ({ to }) => clockText(to)),
]
