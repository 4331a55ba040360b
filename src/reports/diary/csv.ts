import { contentText, ownQuantity, type Units } from '../../facts/ledger-units.ts'
import type { Report } from '../../facts/report.ts'
import { clearedText } from '../../facts/spraying/clearance.ts'
import type { Quantity } from '../../records/quantity.ts'
import { type Cell, csvText } from '../../render/csv.ts'
import type { DiaryData } from './report.ts'
import type { DiaryRow } from './row.ts'

interface CsvColumn {
  name: (units: Units) => string
  of: (row: DiaryRow, units: Units) => Cell
}

/** A quantity that is always in one unit of the ledger, which is part of the heading: `water_l_per_ha`. */
const size = (name: string, unit: string, of: (row: DiaryRow) => Quantity | null): CsvColumn[] => [
  {
    name: (units) =>
      `${name}_${ownQuantity({ value: 0, unit }, units).unit.toLowerCase().replace('/', '_per_').replaceAll(' ', '_')}`,
    of: (row, units) => inOwn(of(row), units)?.value,
  },
]
const measured = (name: string, of: (row: DiaryRow) => Quantity | null): CsvColumn[] => [
  { name: () => name, of: (row, units) => inOwn(of(row), units, true)?.value },
  { name: () => `${name}_unit`, of: (row, units) => inOwn(of(row), units, true)?.unit },
]
const inOwn = (quantity: Quantity | null, units: Units, isDose = false) =>
  quantity && ownQuantity(quantity, units, isDose)
const plain = (name: string, of: CsvColumn['of']): CsvColumn[] => [{ name: () => name, of }]

const snake = (key: string) => key.replace(/[A-Z]/g, (letter) => `_${letter.toLowerCase()}`)

/** The columns of a field; any other field has one of its own name. */
const COLUMNS: Readonly<Record<string, CsvColumn[]>> = {
  typeOfUse: [
    ...plain('type_of_use', ({ typeOfUse }) => typeOfUse),
    ...plain('method', ({ method }) => method),
  ],
  productName: plain('product', ({ productName }) => productName),
  actives: plain('actives', ({ actives }, units) =>
    actives
      .map(({ name, content }) => [name, content && contentText(content, units)].filter(Boolean).join(' '))
      .join('; '),
  ),
  dose: measured('dose', ({ dose }) => dose),
  total: measured('total', ({ total }) => total),
  waterPerHa: size('water', 'L/ha', ({ waterPerHa }) => waterPerHa),
  blockName: plain('place', ({ blockName }) => blockName),
  place: plain('parcel', ({ place }) => place),
  area: [...size('treated', 'ha', ({ area }) => area), ...plain('part', ({ part }) => part)],
  cropCode: plain('crop_eppo', ({ cropCode }) => cropCode),
  stage: plain('bbch', ({ stage }) => stage),
  reason: plain('reason', ({ reason }) => reason?.join('; ')),
  wind: size('wind', 'm/s', ({ wind }) => wind),
  beforeHarvest: [
    ...plain('days_before_harvest', ({ beforeHarvest }) => beforeHarvest),
    ...plain('pick_from', ({ pickFrom }) => pickFrom),
  ],
  reEntry: [
    ...plain('re_entry_h', ({ reEntry }) => (typeof reEntry === 'number' ? reEntry : null)),
    ...plain('re_entry', ({ reEntry }) => (typeof reEntry === 'number' ? `${reEntry} h` : reEntry)),
    ...plain('re_entry_until', ({ reEntryUntil }) => reEntryUntil),
  ],
}

/** The record as CSV: the fields of its form, what each row lacks, the line of its entry, and the cautions. */
export function diaryCsv(
  { data: { fields, rows }, cautions }: Pick<Report<DiaryData>, 'data' | 'cautions'>,
  units: Units,
): string {
  const caution = cautions.join(' ')
  const columns = [
    ...fields.flatMap(({ key }) => COLUMNS[key] ?? plain(snake(key), (row) => row[key] as Cell)),
    ...plain('over_label', ({ overLabel }) => overLabel),
    ...plain('cleared', ({ cleared }) => cleared && clearedText(cleared)),
    ...plain('lacking', ({ missing }) => missing.map(({ what }) => what).join('; ')),
    ...plain('entry', ({ file, line }) => `${file}:${line}`),
    ...plain('caution', () => caution),
  ]
  return csvText(
    columns.map(({ name }) => name(units)),
    rows.map((row) => columns.map(({ of }) => of(row, units))),
  )
}
