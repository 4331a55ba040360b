import type { Names } from '../../facts/names.ts'
import { lastSpraysText } from '../../facts/window/last-sprays.ts'
import { acidText, nextSampleText, windowText } from '../../facts/window/sentences.ts'
import { usesText } from '../../facts/window/uses.ts'
import type { IsoDate } from '../../records/date.ts'
import { spokenDate } from '../../records/spoken-date.ts'
import { numbers, words } from '../../render/columns.ts'
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
export const page: PageOf<WindowData> = ({ data, asOf }, { names }) => {
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
  return pageTable('When each block reaches its target', blocks, [
    words('block', title),
    numbers('target, Brix', ({ target }) => target ?? 'none'),
    numbers('earliest', ({ earliest }) => dateCell(earliest)),
    numbers('likely', ({ likely }) => dateCell(likely)),
    numbers('latest', ({ open, earliest, latest }) =>
      open && earliest ? 'not within 60 days' : dateCell(latest),
    ),
    numbers('allowed from (PHI)', ({ overLabel, legalFrom }) => {
      if (overLabel) return 'over the label: ask'
      return legalFrom === null ? 'nothing recorded forbids it' : dateCell(legalFrom)
    }),
    numbers('last sample, Brix', ({ lastSample }) => (lastSample ? figure(lastSample.brix, 1) : 'none')),
    numbers('sampled', ({ lastSample }) => (lastSample ? dateCell(lastSample.date) : 'none')),
  ])
}

function pastTable({ past }: Block, name: string): Content {
  return pageTable(`Earlier seasons of ${name}`, past, [
    words('season', ({ season }) => season),
    numbers('50 % veraison', ({ veraison }) => dateCell(veraison)),
    numbers('target reached', ({ reached }) => dateCell(reached)),
    numbers('picked', ({ picked }) => dateCell(picked)),
  ])
}
