import type { Report } from '../../facts/report.ts'
import type { Ledger } from '../../ledger/read/ledger.ts'
import { framePage, type Names, type Page, type PageInput, type PageOf } from '../../render/html/page.ts'
import type { Style } from '../../render/style.ts'
import { firstParagraph } from '../../render/text.ts'

export { PAGE_MARK } from '../../render/html/page.ts'

/** The page of each report that can be looked at. */
const PAGES: Record<string, () => Promise<unknown>> = {
  totals: async () => (await import('../../reports/totals/page.ts')).totalsPage,
  heat: async () => (await import('../../reports/heat/page.ts')).heatPage,
  pressure: async () => (await import('../../reports/pressure/page.ts')).pressurePage,
  cover: async () => (await import('../../reports/cover/page.ts')).coverPage,
  scouting: async () => (await import('../../reports/scouting/page.ts')).scoutingPage,
  ripeness: async () => (await import('../../reports/ripeness/page.ts')).ripenessPage,
  window: async () => (await import('../../reports/window/page.ts')).windowPage,
  crop: async () => (await import('../../reports/crop/page.ts')).cropPage,
  harvest: async () => (await import('../../reports/harvest/page.ts')).harvestPage,
  ready: async () => (await import('../../reports/ready/page.ts')).readyPage,
  diary: async () => (await import('../../reports/diary/page.ts')).diaryPage,
  compare: async () => (await import('../../reports/compare/page.ts')).comparePage,
  explain: async () => (await import('../../reports/explain/page.ts')).explainPage,
  season: async () => (await import('../../reports/season/page.ts')).seasonPage,
}

export const PAGE_NAMES: readonly string[] = Object.keys(PAGES)

export interface PageRequest {
  /** The report as printed, whose first paragraph is its answer. */
  printed: string
  /** The ledger for the names of its records; none where a report was made without one. */
  ledger?: Ledger | undefined
  units: Style['units']
}

/**
 * A report as one page to look at and to print.
 * @throws Error where the report has no page.
 */
export async function renderPage(report: Report<unknown>, request: PageRequest): Promise<string> {
  const names = namesOf(request.ledger)
  const answer = report.report === 'season' ? '' : firstParagraph(request.printed)
  const page = await insideOf(report, { names, answer, units: request.units })
  const { asOf, season, findings, cautions } = report
  return framePage({ ...page, names, answer, asOf, season, findings, cautions })
}

/** The inside of a report's page. */
export async function insideOf(report: Report<unknown>, input: PageInput): Promise<Page> {
  const load = PAGES[report.report]
  if (!load) throw new Error(`the report ${report.report} has no page`)
  const pageOf = (await load()) as PageOf<unknown>
  return pageOf(report, input)
}

export function namesOf(ledger: Ledger | undefined): Names {
  const named = (records: Iterable<[string, { name: string }]>) =>
    new Map([...records].map(([id, { name }]) => [id, name]))
  return {
    site: ledger?.vineyard.name ?? '',
    blocks: named(ledger?.blocks ?? []),
    products: named(ledger?.products ?? []),
  }
}
