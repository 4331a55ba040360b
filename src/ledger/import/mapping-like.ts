import { csvRows, separatorOf } from '../read/csv.ts'
import { type ImportKind, importFields } from './mapping.ts'

/** What growers call a column, by the key that it holds; common practice, no source. */
const CALLED: Readonly<Record<string, string>> = {
  day: 'date',
  block: 'blocks',
  plot: 'block',
  field: 'block',
  parcel: 'block',
  dose: 'rate',
  target: 'for',
  disease: 'for',
  against: 'for',
  who: 'operator',
  applicator: 'operator',
  volume: 'water',
  sugar: 'brix',
  acid: 'ta',
  acidity: 'ta',
  comment: 'note',
  comments: 'note',
  remarks: 'note',
  notes: 'note',
  kg: 'weight',
  pickers: 'people',
  wind: 'weather.wind',
}

/**
 * A mapping for a spreadsheet by the names of its columns, to be checked and completed by hand.
 * @returns its lines, and the columns that no key is known for; null where none fits
 */
export function mappingLike(kind: ImportKind, text: string): { lines: string[]; unused: string[] } | null {
  const first = /[^\r\n]*/.exec(text.trimStart())![0]
  const [header] = csvRows(text, separatorOf(first))
  const fields = importFields(kind)
  const columns = new Map<string, string>()
  const unused: string[] = []
  for (const { text: cell } of header?.cells ?? []) {
    const name = cell.trim()
    const plain = name.split('(')[0]!.trim().toLowerCase()
    const others = [
      CALLED[plain],
      `${plain}s`,
      plain.replace(/s$/, ''),
      CALLED[plain] === 'block' ? 'blocks' : '',
    ]
    const key = [plain, ...others].find((one) => one && fields.has(one) && !columns.has(one))
    if (key) columns.set(key, name)
    else if (name !== '') unused.push(name)
  }
  if (columns.size === 0) return null
  return {
    lines: ['columns:', ...[...columns].map(([key, name]) => `  ${key}: ${JSON.stringify(name)}`)],
    unused,
  }
}
