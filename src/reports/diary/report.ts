import { CAUTION, makeReport, type ReportInput } from '../../facts/report.ts'
import { type IsoDate, latestOf } from '../../records/date.ts'
import { FORM_RULES, type Form, type FormRules } from './forms.ts'
import { type DiaryRow, diaryRows, type MissingField } from './row.ts'

export type DiaryData = ReturnType<typeof diary>['data']

interface DiaryOptions {
  form: Form
  from: IsoDate
  to: IsoDate
  /** Years to keep the record, where an authority asks for more than the form's law. */
  keepYears?: number | undefined
}

/**
 * The official spray record of a span of days: one row for each product of each spray on each block, with what
 * is missing for the form asked for. Rows dated after `asOf` are left out.
 */
export function diary(input: ReportInput, options: DiaryOptions) {
  const { ledger, asOf, blocks } = input
  const { form, from } = options
  const to = options.to < asOf ? options.to : asOf
  const { fields, form: _, ...rules } = FORM_RULES[form]
  const wanted = new Set(blocks.map(({ id }) => id))
  const rows = diaryRows(
    ledger,
    ({ spray, block }) => spray.date >= from && spray.date <= to && wanted.has(block.id),
  )
  for (const row of rows) row.missing = missingOf(row, FORM_RULES[form])
  const data = {
    form,
    vineyard: ledger.vineyard.name,
    from,
    to,
    rules,
    /** What the form holds of each row, in its order; the rows hold more. */
    fields: fields.map(({ key, title }) => ({ key, title })),
    rows,
    complete: rows.every(({ missing }) => missing.length === 0),
    /** What is missing, and in how many rows. */
    missing: summed(rows),
    /** Until when the newest of these rows is to be kept. */
    keep: keepUntil(rows, options.keepYears ?? rules.keepYears, rules.keepWhy),
  }
  const caution = `Not legal advice: ${rules.authority} decides what the record must hold.`
  return makeReport('diary', input, { data, cautions: [caution, CAUTION.clearance] })
}

function missingOf(row: DiaryRow, { fields }: FormRules): MissingField[] {
  return fields.flatMap(({ key, title, write, neededBy }) => {
    const value = row[key]
    const empty = value === null || (Array.isArray(value) && value.length === 0)
    if (!empty || (neededBy && !neededBy(row))) return []
    const unknown = row.doseMissing
    if (unknown !== null && (key === 'dose' || key === 'total' || key === 'area'))
      return [{ field: key, what: title, write: unknown }]
    const where = write.replace('PRODUCT', row.product).replace('BLOCK', row.block)
    return [{ field: key, what: title, write: where }]
  })
}

function summed(rows: readonly DiaryRow[]): (MissingField & { rows: number })[] {
  const counts = new Map<string, MissingField & { rows: number }>()
  for (const missing of rows.flatMap((row) => row.missing)) {
    const key = `${missing.field}\n${missing.write}`
    const before = counts.get(key)
    counts.set(key, { ...missing, rows: (before?.rows ?? 0) + 1 })
  }
  return [...counts.values()].sort((a, b) => b.rows - a.rows)
}

/** Counted from the end of the year of use, the latest of the counts in use. */
function keepUntil(rows: readonly DiaryRow[], years: number, why: string) {
  const last = latestOf(rows.map(({ date }) => date))
  return { years, until: last === undefined ? null : `${Number(last.slice(0, 4)) + years}-12-31`, why }
}
