import type { Report } from '../../facts/report.ts'
import { sayCleared } from '../../facts/spraying/clearance.ts'
import type { Quantity } from '../../records/quantity.ts'
import { type Cell, csvText } from '../../render/csv.ts'
import type { DiaryData } from './report.ts'
import type { DiaryRow } from './row.ts'

interface CsvColumn {
  name: string
  of: (row: DiaryRow) => Cell
}

const size = (name: string, unit: string, of: (row: DiaryRow) => Quantity | null): CsvColumn[] => [
  { name: `${name}_${unit}`, of: (row) => of(row)?.value },
]
const measured = (name: string, of: (row: DiaryRow) => Quantity | null): CsvColumn[] => [
  { name, of: (row) => of(row)?.value },
  { name: `${name}_unit`, of: (row) => of(row)?.unit },
]
const plain = (name: string, of: (row: DiaryRow) => Cell): CsvColumn[] => [{ name, of }]

const COLUMNS: Readonly<Record<string, CsvColumn[]>> = {
  date: plain('date', ({ date }) => date),
  start: plain('start', ({ start }) => start),
  end: plain('end', ({ end }) => end),
  typeOfUse: [
    ...plain('type_of_use', ({ typeOfUse }) => typeOfUse),
    ...plain('method', ({ method }) => method),
  ],
  productName: plain('product', ({ productName }) => productName),
  authorisation: plain('authorisation', ({ authorisation }) => authorisation),
  actives: plain('actives', ({ actives }) =>
    actives
      .map(({ name, content }) => [name, content?.value, content?.unit].filter(Boolean).join(' '))
      .join('; '),
  ),
  dose: measured('dose', ({ dose }) => dose),
  total: measured('total', ({ total }) => total),
  waterPerHa: size('water', 'l_per_ha', ({ waterPerHa }) => waterPerHa),
  blockName: plain('place', ({ blockName }) => blockName),
  place: plain('parcel', ({ place }) => place),
  area: [...size('treated', 'ha', ({ area }) => area), ...plain('part', ({ part }) => part)],
  crop: plain('crop', ({ crop }) => crop),
  cropCode: plain('crop_eppo', ({ cropCode }) => cropCode),
  stage: plain('bbch', ({ stage }) => stage),
  reason: plain('reason', ({ reason }) => reason?.join('; ')),
  operator: plain('operator', ({ operator }) => operator),
  certificate: plain('certificate', ({ certificate }) => certificate),
  wind: size('wind', 'm_per_s', ({ wind }) => wind),
  windFrom: plain('wind_from', ({ windFrom }) => windFrom),
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
export function diaryCsv({
  data: { fields, rows },
  cautions,
}: Pick<Report<DiaryData>, 'data' | 'cautions'>): string {
  const caution = cautions.join(' ')
  const columns = [
    ...fields.flatMap(({ key }) => COLUMNS[key]!),
    ...plain('over_label', ({ overLabel }) => overLabel),
    ...plain('cleared', ({ cleared }) => cleared && sayCleared(cleared)),
    ...plain('lacking', ({ missing }) => missing.map(({ what }) => what).join('; ')),
    ...plain('entry', ({ file, line }) => `${file}:${line}`),
    ...plain('caution', () => caution),
  ]
  return csvText(
    columns.map(({ name }) => name),
    rows.map((row) => columns.map(({ of }) => of(row))),
  )
}
