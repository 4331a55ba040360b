import { namesOf } from '../../facts/names.ts'
import type { Report } from '../../facts/report.ts'
import type { Ledger } from '../../ledger/read/ledger.ts'
import { framePage, type PageOf } from '../../render/html/page.ts'
import type { Style } from '../../render/style.ts'
import { firstParagraph } from '../../render/text.ts'

interface PageRequest<Data> {
  /** What draws the inside of the page. */
  page: PageOf<Data>
  /** The report as printed, whose first paragraph is its answer. */
  printed: string
  /** The ledger for the names of its records; none where a report was made without one. */
  ledger?: Ledger | undefined
  units: Style['units']
}

/** A report as one page to look at and to print. */
export function renderPage<Data>(
  report: Report<Data>,
  { page, printed, ledger, units }: PageRequest<Data>,
): string {
  const input = { names: namesOf(ledger), answer: firstParagraph(printed), units }
  return framePage({ ...input, ...page(report, input), ...report })
}
