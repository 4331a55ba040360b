import type { Report } from '../../facts/report.ts'
import { shortDate } from '../../records/spoken-date.ts'
import { safeLine } from '../../render/safe.ts'
import type { Style } from '../../render/style.ts'
import { renderTable } from '../../render/table.ts'
import { counted, underAnswer, wrap } from '../../render/text.ts'
import type { LabelData, LabelReview } from './report.ts'

/** How many labels want a look, the products most urgent first, then what each record lacks. */
export function renderLabel({ data, cautions }: Report<LabelData>, style: Style): string {
  const { products } = data
  if (products.length === 0) return 'No product is recorded.\n'
  const rows = products.map((one) => [
    one.product,
    one.used ? 'yes' : '-',
    one.read === null ? 'no date' : readText(one),
    one.authorisedUntil === null ? 'no date' : longDate(one.authorisedUntil),
    one.daysLeft === null ? '-' : String(one.daysLeft),
    one.missing.length === 0 ? '-' : String(one.missing.length),
    painted(one.state, style),
  ])
  const table = renderTable(
    [
      { title: 'product', most: 22 },
      { title: 'used\nnow' },
      { title: 'label\nread' },
      { title: 'authorised\nuntil' },
      { title: 'days\nleft', align: 'right' },
      { title: 'lacks', align: 'right' },
      { title: '' },
    ],
    rows,
  )
  const gaps = products.filter(({ missing }) => missing.length > 0).flatMap((one) => gapLines(one, style))
  const below = gaps.length === 0 ? '' : `\n${gaps.join('\n')}\n`
  return underAnswer(`${wrap(headline(data), style.columns)}\n\n${table}${below}`, cautions, style.columns)
}

const longDate = (date: string) => `${shortDate(date)} ${date.slice(0, 4)}`

/** The month alone where the label's text says no more. */
const readText = ({ read, label }: LabelReview) =>
  label!.includes(read!) ? longDate(read!) : longDate(read!).slice(2)

function headline({ products, lapsed, lapsing, old, incomplete }: LabelData): string {
  const parts = [
    lapsed > 0 && `${counted(lapsed, 'authorisation has', 'authorisations have')} lapsed: do not spray`,
    lapsing > 0 && `${counted(lapsing, 'authorisation lapses', 'authorisations lapse')} within 90 days`,
    old > 0 && `${counted(old, 'label was', 'labels were')} read over a year ago or on no known day`,
    incomplete > 0 && `${counted(incomplete, 'record lacks', 'records lack')} something`,
  ].filter(Boolean)
  return parts.length === 0
    ? `${counted(products.length, 'label is', 'labels are')} sound: read within a year, authorised, complete.`
    : `Of ${counted(products.length, 'product')}: ${parts.join('; ')}.`
}

function painted(state: LabelReview['state'], { paint }: Style): string {
  if (state === 'lapsed') return paint.bad(state)
  return state === 'sound' ? paint.good(state) : paint.doubtful(state)
}

function gapLines({ product, file, missing }: LabelReview, { columns }: Style): string[] {
  const head = `${safeLine(product)} lacks, in ${safeLine(file)}:`
  return [head, ...missing.map(({ write, needed }) => wrap(`${write}  for ${needed}`, columns, '  '))]
}
