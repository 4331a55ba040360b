import { groupedBy } from '../../facts/judged.ts'
import { contentText, degreeSign, degreesIn } from '../../facts/ledger-units.ts'
import type { Report } from '../../facts/report.ts'
import { listed } from '../../facts/sentences.ts'
import { clearedText } from '../../facts/spraying/clearance.ts'
import { reEntryHoursText, untilText } from '../../facts/spraying/re-entry.ts'
import type { Quantity } from '../../records/quantity.ts'
import { longDate, monthOf, shortDate, spokenDate } from '../../records/spoken-date.ts'
import { numbers, words } from '../../render/columns.ts'
import type { Style } from '../../render/style.ts'
import { renderTable } from '../../render/table.ts'
import { counted, underAnswer, wrap } from '../../render/text.ts'
import { display } from '../../render/units.ts'
import type { DiaryData } from './report.ts'
import type { DiaryRow } from './row.ts'

/** Complete or not, and how long to keep; then the record; then what is missing and by which law it was made. */
export function renderDiary(report: Report<DiaryData>, style: Style): string {
  const { data } = report
  const { rows, rules } = data
  const span = `${longDate(data.from)} to ${longDate(data.to)}`
  if (rows.length === 0) return underAnswer(`No sprays from ${span}.\n`, report.cautions, style.columns)
  const uses = counted(rows.length, 'use')
  const lacking = rows.filter(({ missing }) => missing.length > 0).length
  const state = data.complete
    ? `No field that rowbook checks is empty: ${uses} from ${span}.`
    : `Not complete: ${lacking} of ${uses} from ${span} ${lacking === 1 ? 'lacks' : 'lack'} something.`
  const head = [
    wrap(`${state} Keep until ${longDate(data.keep.until!)}.`, style.columns),
    wrap(`${rules.title}. ${data.vineyard}.`, style.columns),
  ].join('\n')
  const body = data.form === 'eu' ? euTable(data, style) : entries(data, style)
  const lists = [missingList(data, style), basis(data, style)].filter((part) => part !== '')
  return underAnswer(`${head}\n\n${body}\n${lists.join('\n\n')}\n`, report.cautions, style.columns)
}

/** Numbers of what a row lacks, as the list below the record names them. */
function lacks(row: DiaryRow, { missing }: DiaryData): string {
  const same = ({ field, write }: { field: string; write: string }) =>
    missing.findIndex((other) => other.field === field && other.write === write) + 1
  return row.missing
    .map(same)
    .sort((a, b) => a - b)
    .join(', ')
}

const euTable = (data: DiaryData, { units, columns }: Style): string =>
  renderTable(
    data.rows,
    [
      words('date\nstart', ({ date, start }) => [shortDate(date), start].filter(Boolean).join('\n')),
      words('place', ({ blockName, place }) => [blockName, place].filter(Boolean).join('\n'), 16),
      numbers('treated', ({ area }) => (area ? display(area, units) : '?')),
      words('product\nnumber', (row) => `${row.productName}\n${row.authorisation ?? '?'}`, 22),
      numbers('dose', ({ dose }) => (dose ? display(dose, units) : '?')),
      numbers('BBCH', ({ stage }) => stage ?? '-'),
      words('lacks', (row) => lacks(row, data), 7),
    ],
    columns,
  )

/** The longer forms: a paragraph for each spray of a block, with a line or two for each product. */
function entries(data: DiaryData, style: Style): string {
  return [...groupedBy(data.rows, ({ spray, block }) => `${spray} ${block}`).values()]
    .map((rows) => {
      const lines = [
        ...rows.flatMap((row) => productLines(row, data, style)),
        ...sharedLines(rows[0]!, style),
      ].map((line) => wrap(line, style.columns, '    '))
      return `${[wrap(headOf(rows[0]!, style), style.columns, '  ').trimStart(), ...lines].join('\n')}\n`
    })
    .join('\n')
}

const sizeOf = (value: Quantity | null, { units }: Style) => (value ? display(value, units) : 'unknown')

function headOf(row: DiaryRow, style: Style): string {
  const clock = row.start === null ? '' : ` ${row.start}${row.end === null ? '' : `-${row.end}`}`
  const spot = row.method === 'spot' ? 'spot application, ' : ''
  const place = [
    row.blockName,
    row.place,
    spot + sizeOf(row.area, style),
    row.part === 'whole' ? null : row.part,
  ]
  const stage = row.stage === null ? '' : ` at BBCH ${row.stage}`
  return `${spokenDate(row.date)}${clock}  ${place.filter(Boolean).join(', ')}; grapevine (VITVI)${stage}; ${row.typeOfUse}`
}

function productLines(row: DiaryRow, data: DiaryData, style: Style): string[] {
  const actives = row.actives.map(({ name, content, group }) =>
    [name, content && contentText(content, style.units), group].filter(Boolean).join(' '),
  )
  const reason = row.reason ? `, for ${listed(row.reason)}` : ''
  const pick = row.pickFrom
    ? `; pre-harvest interval (PHI) ${row.beforeHarvest} d, pick from ${shortDate(row.pickFrom)}`
    : ''
  const lacking = row.missing.length > 0 ? `; lacks ${lacks(row, data)}` : ''
  return [
    `${row.productName} (${row.formulation}), ${row.authorisation ?? 'no number'}: ${sizeOf(row.dose, style)}, ${sizeOf(row.total, style)}${reason}`,
    `  ${listed(actives)}${pick}${lacking}`,
  ]
}

function sharedLines(row: DiaryRow, style: Style): string[] {
  const { units } = style
  const air = [
    row.wind && `wind ${display(row.wind, units)}${row.windFrom ? ` from ${row.windFrom}` : ''}`,
    row.temperature !== null &&
      `${Number(degreesIn(row.temperature, units).toFixed(1))} ${degreeSign(units)}`,
    row.humidity !== null && `humidity ${row.humidity} %`,
  ]
  const who = [
    row.operator && `by ${row.operator}`,
    row.certificate && `certificate ${row.certificate}`,
    row.sprayer,
  ]
  const water =
    row.water && row.waterPerHa && `${sizeOf(row.water, style)} of water (${sizeOf(row.waterPerHa, style)})`
  return [
    [water, ...air, ...who].filter(Boolean).join(', '),
    row.overLabel ?? waitOf(row),
    row.note ? `Note: ${row.note}` : '',
  ].filter((line) => line !== '')
}

/** Until when nobody may enter; after a use over the label that was cleared, from when. */
function waitOf({ reEntry, reEntryUntil, cleared, pickFrom }: DiaryRow): string {
  if (!reEntryUntil) return ''
  const date = reEntryUntil.slice(0, 10)
  if (cleared)
    return `Over the label, ${clearedText(cleared)}: pick from ${spokenDate(pickFrom!)}, enter from ${spokenDate(date)}.`
  const hours = typeof reEntry === 'number' ? reEntry : null
  const minutes = Number(reEntryUntil.slice(11, 13)) * 60 + Number(reEntryUntil.slice(14, 16))
  return `Re-entry interval (REI) ${reEntryHoursText(hours)}: keep out until ${untilText({ date, minutes, hours })}.`
}

function missingList({ missing }: DiaryData, { columns }: Style): string {
  if (missing.length === 0) return ''
  const lines = missing.map(({ what, write, rows }, index) => {
    const text = wrap(`${what}, in ${counted(rows, 'row')}: ${write}`, columns, '    ')
    return `${String(index + 1).padStart(2)}  ${text.slice(4)}`
  })
  return `Lacking:\n${lines.join('\n')}`
}

function basis({ rules, keep }: DiaryData, { columns }: Style): string {
  const sources = rules.sources.map(({ text, basis }) =>
    basis === 'memory' ? `${text} (from memory)` : text,
  )
  return [
    ...rules.duties,
    `Keep ${keep.years} years: ${keep.why}.`,
    `Based on the law as of ${monthOf(rules.lawOf)}; it may have changed since. Sources: ${sources.join('; ')}.`,
  ]
    .map((line) => wrap(line, columns))
    .join('\n')
}
