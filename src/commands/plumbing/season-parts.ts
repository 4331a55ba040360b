import type { Names } from '../../facts/names.ts'
import type { Report, ReportInput } from '../../facts/report.ts'
import { windowOf } from '../../facts/window/block-window.ts'
import type { PageInput, PageOf } from '../../render/html/page.ts'
import { PLAIN, type Style } from '../../render/style.ts'
import { firstParagraph } from '../../render/text.ts'
import { cover } from '../../reports/cover/report.ts'
import { renderCover } from '../../reports/cover/terminal.ts'
import { crop } from '../../reports/crop/report.ts'
import { renderCrop } from '../../reports/crop/terminal.ts'
import { harvest } from '../../reports/harvest/report.ts'
import { renderHarvest } from '../../reports/harvest/terminal.ts'
import { heat } from '../../reports/heat/report.ts'
import { renderHeat } from '../../reports/heat/terminal.ts'
import { pressure } from '../../reports/pressure/report.ts'
import { renderPressure } from '../../reports/pressure/terminal.ts'
import { ready } from '../../reports/ready/report.ts'
import { renderReady } from '../../reports/ready/terminal.ts'
import { ripeness } from '../../reports/ripeness/report.ts'
import { renderRipeness } from '../../reports/ripeness/terminal.ts'
import { scouting } from '../../reports/scouting/report.ts'
import { renderScouting } from '../../reports/scouting/terminal.ts'
import type { PagePart } from '../../reports/season/page.ts'
import { totals } from '../../reports/totals/report.ts'
import { renderTotals } from '../../reports/totals/terminal.ts'
import { window } from '../../reports/window/report.ts'
import { renderWindow } from '../../reports/window/terminal.ts'

/** One report of a season: its data, and how it is printed and drawn. */
interface SeasonPart {
  report: Report<unknown>
  /** Its answer in a sentence or two. */
  answer(style: Style): string
  page(): Promise<(input: PageInput) => PagePart>
}

/** Every report of a season, in the order in which a grower asks. */
export function seasonParts(input: ReportInput, names: Names): SeasonPart[] {
  const { blocks } = names
  const named = input.ledger.blocks
  return [
    partOf(
      ready(input),
      (report, style) => renderReady(report, { names: blocks, all: true }, style),
      async () => (await import('../../reports/ready/page.ts')).readyPage,
    ),
    partOf(
      window(input),
      (report, style) => renderWindow(report, names, style),
      async () => (await import('../../reports/window/page.ts')).windowPage,
    ),
    partOf(
      ripeness(input),
      (report, style) => renderRipeness(report, { blocks, asPressed: false }, style),
      async () => (await import('../../reports/ripeness/page.ts')).ripenessPage,
    ),
    partOf(
      crop(input),
      (report, style) => renderCrop(report, blocks, style),
      async () => (await import('../../reports/crop/page.ts')).cropPage,
    ),
    partOf(
      harvest(input),
      (report, style) => renderHarvest(report, names, style),
      async () => (await import('../../reports/harvest/page.ts')).harvestPage,
    ),
    partOf(
      scouting(input),
      (report, style) => renderScouting(report, names, style),
      async () => (await import('../../reports/scouting/page.ts')).scoutingPage,
    ),
    partOf(
      // The window that `cover` itself uses: a spray must not depend on one guessed from the calendar.
      cover(input, { windowOf: (block) => windowOf(named.get(block)!, input) }),
      (report, style) => renderCover(report, names, style),
      async () => (await import('../../reports/cover/page.ts')).coverPage,
    ),
    partOf(
      pressure(input),
      (report, style) => renderPressure(report, style, blocks),
      async () => (await import('../../reports/pressure/page.ts')).pressurePage,
    ),
    partOf(
      totals(input),
      renderTotals,
      async () => (await import('../../reports/totals/page.ts')).totalsPage,
    ),
    partOf(
      heat(input),
      (report, style) => renderHeat(report, blocks, style),
      async () => (await import('../../reports/heat/page.ts')).heatPage,
    ),
  ]
}

/** Width for answers whose lines a page joins again. */
const PAGE_COLUMNS = 100

function partOf<Data>(
  report: Report<Data>,
  print: (report: Report<Data>, style: Style) => string,
  page: () => Promise<PageOf<Data>>,
): SeasonPart {
  const answer = (style: Style) => firstParagraph(print(report, style))
  return {
    report,
    answer,
    async page() {
      const pageOf = await page()
      return (input) => {
        const style = { columns: PAGE_COLUMNS, units: input.units, paint: PLAIN }
        return { name: report.report, answer: answer(style), page: pageOf(report, input) }
      }
    },
  }
}
