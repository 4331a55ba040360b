import { contentText, inGround } from '../../facts/ledger-units.ts'
import { listed } from '../../facts/sentences.ts'
import { longDate, monthOf, shortDate } from '../../records/spoken-date.ts'
import { words } from '../../render/columns.ts'
import { quantityCell } from '../../render/html/figures.ts'
import { type Content, html, list, section } from '../../render/html/markup.ts'
import type { PageInput, PageOf } from '../../render/html/page.ts'
import { folded, pageTable } from '../../render/html/table.ts'
import { counted } from '../../render/text.ts'
import type { DiaryData } from './report.ts'
import type { DiaryRow } from './row.ts'

/** Fields beside the number of the use and its date that a sheet of A4 bears in one table. */
const MOST = 7

/** The official record: every field of its form, use by use; then what is missing, and the law it was made by. */
export const page: PageOf<DiaryData> = ({ data }, input) => ({
  title: data.rules.title,
  answer: input.answer.replace(`${data.rules.title}. ${data.vineyard}.`, ''),
  content: [
    section(
      `${longDate(data.from)} to ${longDate(data.to)}`,
      data.rows.length === 0 ? html`<p>No sprays.</p>\n` : months(data, input),
    ),
    lackingList(data),
    basis(data),
  ],
})

/** The uses month by month, folded where there are several; all of them are printed. */
function months(data: DiaryData, input: PageInput): Content {
  const rows = data.rows.map((row, index) => ({ row, number: index + 1 }))
  const all = [...new Set(data.rows.map(({ date }) => date.slice(0, 7)))]
  return all.map((month) => {
    const name = monthOf(month)
    const own = rows.filter(({ row }) => row.date.startsWith(month))
    const shown = tables(data.fields, { rows: own, month: name }, input)
    return all.length === 1 ? shown : folded(`${name}: ${counted(own.length, 'use')}`, shown, { filed: true })
  })
}

type Numbered = { row: DiaryRow; number: number }

/** Forms of many fields go on in a second table, whose rows have the numbers of the first. */
function tables(
  fields: DiaryData['fields'],
  { rows, month }: { rows: readonly Numbered[]; month: string },
  input: PageInput,
): Content {
  const others = fields.filter(({ key }) => key !== 'date')
  const parts = Math.ceil(others.length / MOST)
  const each = Math.ceil(others.length / parts)
  return Array.from({ length: parts }, (_, part) => {
    const shown = others.slice(part * each, (part + 1) * each)
    const caption = parts === 1 ? `Uses, ${month}` : `Uses, ${month}, part ${part + 1} of ${parts}`
    return pageTable(caption, rows, [
      words('no.', ({ number }) => number),
      words('date', ({ row }) => html`<time datetime="${row.date}">${longDate(row.date)}</time>`),
      ...shown.map(({ title, key }) =>
        words(inGround(title, input.units), ({ row }: Numbered) => cellOf(row, key, input)),
      ),
    ])
  })
}

function cellOf(row: DiaryRow, key: string, input: PageInput): Content {
  if (row.missing.some(({ field }) => field === key)) return html`<strong>missing</strong>`
  const value = row[key as keyof DiaryRow]
  if (value === null || value === undefined) return '-'
  if (key === 'actives')
    return row.actives
      .map(({ name, content }) =>
        [name, content && contentText(content, input.units)].filter(Boolean).join(' '),
      )
      .join(', ')
  if (key === 'area' && row.part !== 'whole') return [quantityCell(row.area, input), ` (${row.part})`]
  if (key === 'typeOfUse' && row.method !== null && row.method !== 'closed-space')
    return `${row.typeOfUse} (${row.method})`
  if (key === 'reEntry')
    return row.reEntry === null ? '' : row.reEntry === 'until dry' ? row.reEntry : `${row.reEntry} h`
  if (key === 'beforeHarvest')
    return `${row.beforeHarvest} d${row.pickFrom === null ? '' : `, pick from ${shortDate(row.pickFrom)}`}`
  if (Array.isArray(value)) return listed(value.map(String))
  if (typeof value === 'object') return quantityCell(value as { value: number; unit: string }, input)
  return String(value)
}

function lackingList({ missing }: DiaryData): Content {
  if (missing.length === 0) return null
  const items = missing.map(({ what, write, rows }) => `${what}, in ${counted(rows, 'row')}: ${write}`)
  return section('Missing', list(items))
}

function basis({ rules, keep }: DiaryData): Content {
  return section(
    'Law used',
    rules.duties.map((duty) => html`<p>${duty}</p>\n`),
    html`<p>Keep ${String(keep.years)} years: ${keep.why}.</p>
<p>Based on the law as of ${monthOf(rules.lawOf)}; it may have changed since. Sources:</p>\n`,
    list(rules.sources.map(({ text, basis: read }) => [text, read === 'memory' && ' (from memory)'])),
  )
}
