import type { Report } from '../../facts/report.ts'
import { upperFirst } from '../../facts/sentences.ts'
import { longDate } from '../../records/spoken-date.ts'
import { numbers, words } from '../../render/columns.ts'
import { safeLine } from '../../render/safe.ts'
import type { Style } from '../../render/style.ts'
import { renderTable } from '../../render/table.ts'
import { counted, underAnswer, wrap } from '../../render/text.ts'
import { writeIn } from './gaps.ts'
import type { LabelData, LabelReview } from './report.ts'

/** How many labels to read again, the most urgent products first, then what each record lacks. */
export function renderLabel({ data, cautions }: Report<LabelData>, style: Style): string {
  const { products } = data
  if (products.length === 0) return 'No product is recorded.\n'
  const table = renderTable(
    products,
    [
      words('product', ({ name }) => safeLine(name), 24),
      words('this\nseason', ({ used }) => (used ? 'used' : '-')),
      words('label\nread', (one) => (one.read === null ? 'no date' : readText(one))),
      words('authorised\nuntil', ({ authorisedUntil: day }) => (day === null ? 'no date' : longDate(day))),
      numbers('days\nleft', ({ daysLeft }) => daysLeft ?? '-'),
      numbers('fields\nmissing', ({ missing }) => missing.length || '-'),
      words('', ({ state }) => painted(state, style)),
    ],
    style.columns,
  )
  const gaps = products.filter(({ missing }) => missing.length > 0).flatMap((one) => gapLines(one, style))
  const below = gaps.length === 0 ? '' : `\n${gaps.join('\n')}\n`
  return underAnswer(`${wrap(headline(data), style.columns)}\n\n${table}${below}`, cautions, style.columns)
}

/** The month alone where the label's text says no more. */
const readText = ({ read, label }: LabelReview) =>
  label!.includes(read!) ? longDate(read!) : longDate(read!).slice(2)

function headline({ products, lapsed, lapsing, old, incomplete }: LabelData): string {
  const parts = [
    lapsed > 0 && `${counted(lapsed, 'authorisation has', 'authorisations have')} ended: do not spray`,
    lapsing > 0 && `${counted(lapsing, 'authorisation ends', 'authorisations end')} within 90 days`,
    old > 0 &&
      `read ${old === products.length && old > 1 ? `all ${old} labels` : counted(old, 'label')} again (last read over a year ago, or no date)`,
    incomplete > 0 && `${counted(incomplete, 'record has', 'records have')} missing fields`,
  ].filter(Boolean)
  return parts.length === 0
    ? `${counted(products.length, 'label')} read within a year and authorised; no field that rowbook checks is empty.`
    : `${upperFirst(parts.join('; '))}.`
}

const STATE_WORDS: Readonly<Record<LabelReview['state'], string>> = {
  lapsed: 'authorisation ended',
  lapses: 'ends soon',
  'read again': 'read again',
  incomplete: 'fields missing',
  sound: 'nothing missing',
}

function painted(state: LabelReview['state'], { paint }: Style): string {
  const word = STATE_WORDS[state]
  if (state === 'lapsed') return paint.bad(word)
  return state === 'sound' ? paint.good(word) : paint.doubtful(word)
}

function gapLines({ name, file, missing }: LabelReview, { columns, units }: Style): string[] {
  const head = `${safeLine(name)}: add to ${safeLine(file)}`
  return [head, ...missing.map((gap) => wrap(`${writeIn(gap, units)}  for ${gap.needed}`, columns, '  '))]
}
