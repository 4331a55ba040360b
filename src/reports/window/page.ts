import type { Names } from '../../facts/names.ts'
import { lastSpraysText } from '../../facts/window/last-sprays.ts'
import { acidText, nextSampleText, windowText } from '../../facts/window/sentences.ts'
import { usesText } from '../../facts/window/uses.ts'
import type { IsoDate } from '../../records/date.ts'
import { spokenDate } from '../../records/spoken-date.ts'
import { numbers } from '../../render/columns.ts'
import { figure } from '../../render/figure.ts'
import { dateCell, nameOf } from '../../render/html/figures.ts'
import { type Content, html, list, section } from '../../render/html/markup.ts'
import type { PageOf } from '../../render/html/page.ts'
import { folded, pageTable } from '../../render/html/table.ts'
import { drawCourseChart } from '../../render/svg/course-chart.ts'
import { drawSpanChart } from '../../render/svg/span-chart.ts'
import { sentences } from '../../render/text.ts'
import { allWindows, type WindowData } from './report.ts'

type Block = WindowData['blocks'][number]

/**
 * When each block reaches its target: the blocks side by side, then each with its samples and the chance under them.
 */
export const windowPage: PageOf<WindowData> = ({ data, asOf }, { names }) => {
  const title = (block: Block) => nameOf(names, block.block)
  const parts = data.blocks.map((block, index) =>
    section(
      title(block),
      paragraphs(about(block, { names, asOf })),
      block.conflicts.length > 0 && list(block.conflicts),
      block.chart &&
        folded(`Chart of ${title(block)}`, drawCourseChart(`window-${index}`, block.chart), {
          beside: true,
        }),
      folded(
        `What the window of ${title(block)} is based on`,
        [paragraphs(basis(block, { names, asOf })), block.past.length > 0 && pastTable(block, title(block))],
        { filed: true },
      ),
    ),
  )
  const all = allWindows(data.blocks, (block) => nameOf(names, block))
  return {
    title: 'When to pick',
    content: html`${all.rows.length > 1 && drawSpanChart('window-all', all)}${blockTable(data, title)}<p class="quiet">Each date is the day on which the mean sugar of the block reaches the target. The chance is 5 % by the earliest, 50 % by the likely and 95 % by the latest.</p>
${parts}`,
  }
}

const paragraphs = (lines: readonly string[]): Content => lines.map((line) => html`<p>${line}</p>\n`)

/** When to pick a block, and what to do until then. */
function about(block: Block, { names, asOf }: { names: Names; asOf: IsoDate }): string[] {
  const name = nameOf(names, block.block)
  return sentences(
    `${name}${block.why === null ? '' : ':'} ${windowText(block)}.`,
    block.picked && `Picked on ${spokenDate(block.picked)}.`,
    block.why && `${block.why}.`,
    block.legalFrom && `Pre-harvest interval (PHI): pick from ${spokenDate(block.legalFrom)}.`,
    nextSampleText(block, asOf),
  )
}

function basis(block: Block, { names, asOf }: { names: Names; asOf: IsoDate }): string[] {
  return sentences(
    block.why === null && `Target: ${block.target} Brix (${block.targetSource}). ${usesText(block)}`,
    acidText(block, asOf),
    block.lastSprays &&
      `If you spray today, by PHI alone: ${lastSpraysText(block.lastSprays, names.products)}.`,
  )
}

function blockTable({ blocks }: WindowData, title: (block: Block) => string): Content {
  return pageTable({
    caption: 'When each block reaches its target',
    columns: [
      'block',
      ...numbers(
        'target, Brix',
        'earliest',
        'likely',
        'latest',
        'allowed from (PHI)',
        'last sample, Brix',
        'sampled',
      ),
    ],
    rows: blocks.map((block) => [
      title(block),
      block.target === null ? 'none' : String(block.target),
      dateCell(block.earliest),
      dateCell(block.likely),
      block.open && block.earliest ? 'not within 60 days' : dateCell(block.latest),
      block.overLabel
        ? 'over the label: ask'
        : block.legalFrom === null
          ? 'nothing recorded forbids it'
          : dateCell(block.legalFrom),
      block.lastSample === null ? 'none' : figure(block.lastSample.brix, 1),
      block.lastSample === null ? 'none' : dateCell(block.lastSample.date),
    ]),
  })
}

function pastTable({ past }: Block, name: string): Content {
  return pageTable({
    caption: `Earlier seasons of ${name}`,
    columns: ['season', ...numbers('50 % veraison', 'target reached', 'picked')],
    rows: past.map(({ season, veraison, reached, picked }) => [
      String(season),
      dateCell(veraison),
      dateCell(reached),
      dateCell(picked),
    ]),
  })
}
