import type { Names } from '../../facts/names.ts'
import { shortDate } from '../../records/spoken-date.ts'
import { clockText } from '../../records/time-range.ts'
import { nameOf } from '../../render/html/figures.ts'
import { type Content, list, section } from '../../render/html/markup.ts'
import type { PageInput } from '../../render/html/page.ts'
import { pageTable } from '../../render/html/table.ts'
import { PLAIN } from '../../render/style.ts'
import type { HarvestDay } from './day.ts'
import type { HarvestData } from './report.ts'
import { dayLines } from './terminal-day.ts'

/** The day by the hour: blocks in their order, then people, buckets, clippers, and what isn't picked on it. */
export function dayPart(data: HarvestData, { names, units }: PageInput): Content {
  const lines = dayLines(data, names.blocks, { columns: 80, units, paint: PLAIN })
  if (lines.length === 0) return null
  const steps = data.day?.steps ?? []
  return section(
    'Picking day',
    steps.length > 0 &&
      pageTable({
        caption: 'Blocks in their order; the times count no breaks',
        columns: ['block', 'day', 'from', 'to'],
        rows: steps.map((step) => stepCells(step, names)),
      }),
    list(lines),
  )
}

/** Where and when, of an hour of the picking day. */
export const stepCells = ({ block, date, from, to }: HarvestDay['steps'][number], names: Names): string[] => [
  nameOf(names, block),
  shortDate(date),
  clockText(from),
  clockText(to),
]
