import { dayNumber } from '../../records/date.ts'
import { isNumeric } from '../../records/shape.ts'
import type { Ledger } from '../read/ledger.ts'
import { type PlainValue, writtenNumber } from '../write/entry-text.ts'
import type { ImportField, ImportMapping } from './mapping.ts'

interface CellFault {
  name: string
  message: string
  help: string
}

type CellResult = { value: PlainValue; fault?: undefined } | { value?: undefined; fault: CellFault }

/** Reads one cell as it will stand in the entry; whatever can be read in two ways is a fault. */
export function readCell(
  cell: string,
  field: ImportField,
  { mapping, ledger }: { mapping: ImportMapping; ledger: Ledger },
): CellResult {
  const words = mapping.words?.[field.key]
  if (words && Object.hasOwn(words, cell)) return checked(field, words[cell]!)
  if (!field.several) {
    const one = readOne(cell, field, { mapping, ledger })
    return one.fault ? one : checked(field, one.value)
  }
  const pieces = cell.split(isId(field) ? /[;,+]/ : ';').map((piece) => piece.trim())
  const values: PlainValue[] = []
  for (const piece of pieces.filter((one) => one !== '')) {
    const said = words && Object.hasOwn(words, piece) ? { value: words[piece]! } : undefined
    const one: CellResult = said ?? readOne(piece, field, { mapping, ledger })
    if (one.fault) return one
    values.push(one.value)
  }
  return checked(field, values.length === 1 ? values[0]! : values)
}

const isId = ({ about, key }: ImportField) =>
  about.format !== 'date' && /^(blocks?|product|sprayer|for)$/.test(key)

function readOne(
  cell: string,
  field: ImportField,
  { mapping, ledger }: { mapping: ImportMapping; ledger: Ledger },
): CellResult {
  const { about, key } = field
  if (about.format === 'date') return readDate(cell, mapping.dates ?? 'iso')
  if (isId(field)) return { value: idOf(cell, key, ledger) }
  if (!isNumeric(about) && !about.keeps) return { value: cell }
  const match = /^([+-]?(?:[.,]*\d)+)((?:\D.*)?)$/.exec(cell)
  if (!match) return { value: cell }
  const number = readNumber(match[1]!, mapping.decimal ?? 'point')
  if (number.fault) return number
  const written = match[2]!.trim()
  const unit = written || mapping.units?.[key] || ''
  if (about.keeps && unit !== '') return { value: `${number.value} ${unit}` }
  if (written !== '') return { value: cell }
  if (about.keeps && !about.keeps.includes(''))
    return {
      fault: {
        name: 'needs-unit',
        message: `\`${cell}\` has no unit, and the mapping names none for ${key}`,
        help: `write \`units: { ${key}: ${about.keeps[0]} }\` into the mapping`,
      },
    }
  return { value: writtenNumber(number.value) }
}

function readNumber(
  text: string,
  decimal: 'point' | 'comma',
): { value: string; fault?: undefined } | { value?: undefined; fault: CellFault } {
  const shape = decimal === 'comma' ? /^[+-]?\d+(?:,\d+)?$/ : /^[+-]?\d+(?:\.\d+)?$/
  if (shape.test(text)) return { value: text.replace(',', '.').replace(/^\+/, '') }
  const other = decimal === 'comma' ? 'a point' : 'a comma'
  return {
    fault: {
      name: decimal === 'comma' ? 'wrong-type' : 'decimal-comma',
      message: `\`${text}\` holds ${/[.,].*[.,]/.test(text) ? 'more than one mark' : other}, and the mapping says that decimals have a ${decimal}`,
      help:
        decimal === 'comma'
          ? 'take marks for thousands out, or write `decimal: point` into the mapping if the file has points'
          : 'write `decimal: comma` into the mapping if the file has commas',
    },
  }
}

function readDate(text: string, form: 'iso' | 'day-first' | 'month-first'): CellResult {
  const loose = /^(\d{1,2})[./-](\d{1,2})[./-](\d{4})$/.exec(text)
  if (form !== 'iso' && loose) {
    const [day, month] = form === 'day-first' ? [loose[1]!, loose[2]!] : [loose[2]!, loose[1]!]
    const iso = `${loose[3]}-${month.padStart(2, '0')}-${day.padStart(2, '0')}`
    if (dayNumber(iso) !== null) return { value: iso }
  } else if (dayNumber(text) !== null) return { value: text }
  const help =
    form === 'iso' && loose
      ? 'say `dates: day-first` or `dates: month-first` in the mapping'
      : `the mapping says ${form}${form === 'iso' ? ', like 2026-06-14' : form === 'day-first' ? ', like 14.6.2026' : ', like 6/14/2026'}`
  return { fault: { name: 'bad-date', message: `\`${text}\` is not a date of the calendar`, help } }
}

/** The id itself, or that of the record which bears the name written; else the text as it is, to be refused. */
function idOf(text: string, key: string, ledger: Ledger): string {
  const records = key === 'product' ? ledger.products : key === 'sprayer' ? ledger.sprayers : ledger.blocks
  if (key === 'for' || records.has(text)) return text
  const same = [...records.values()].filter(({ name }) => name.toLowerCase() === text.toLowerCase())
  return same.length === 1 ? same[0]!.id : text
}

function checked({ schema }: ImportField, value: PlainValue): CellResult {
  const result = schema.safeParse(value)
  if (result.success) return { value }
  const issue = result.error.issues[0]!
  const params =
    issue.code === 'custom' ? (issue.params as { name?: string; help?: string } | undefined) : undefined
  return {
    fault: {
      name: params?.name ?? 'wrong-type',
      message: issue.message,
      help: params?.help ?? 'check the cell',
    },
  }
}
