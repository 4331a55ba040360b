import { dayNumber } from '../../records/date.ts'
import { findAllNamed } from '../../records/said-name.ts'
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
  const meant = words && Object.hasOwn(words, cell) ? words[cell]! : undefined
  if (isId(field) && field.key !== 'for') return readNames(meant ?? cell, field, { words, ledger })
  if (meant !== undefined) return checked(field, meant)
  if (!field.several) {
    const one = readOne(cell, field, mapping)
    return one.fault ? one : checked(field, one.value)
  }
  const pieces = cell.split(isId(field) ? /[;,+]/ : ';').map((piece) => piece.trim())
  const values: PlainValue[] = []
  for (const piece of pieces.filter((one) => one !== '')) {
    const said = words && Object.hasOwn(words, piece) ? { value: words[piece]! } : undefined
    const one: CellResult = said ?? readOne(piece, field, mapping)
    if (one.fault) return one
    values.push(one.value)
  }
  return checked(field, values.length === 1 ? values[0]! : values)
}

const isId = ({ about, key }: ImportField) =>
  about.format !== 'date' && /^(blocks?|product|sprayer|for)$/.test(key)

/** Blocks, a product or a sprayer as people write them: by id, name or part of one; `All`, `Upper + Lower`. */
function readNames(
  said: PlainValue,
  field: ImportField,
  { words, ledger }: { words: Record<string, PlainValue> | undefined; ledger: Ledger },
): CellResult {
  const { key } = field
  const noun = key === 'product' ? 'product' : key === 'sprayer' ? 'sprayer' : 'block'
  const records = [...ledger[`${noun}s`].values()] as { id: string; name: string }[]
  const texts = (Array.isArray(said) ? said : [said]).map(String)
  const inWords = (text: string) =>
    text
      .split(/([;,+&])/)
      .map((one) => (words && Object.hasOwn(words, one.trim()) ? [words[one.trim()]].flat().join(',') : one))
      .join('')
  const found = new Set<string>()
  for (const text of texts) {
    const all = findAllNamed(inWords(text), records)
    if (all.unclear) return { fault: unclear(noun, all.unclear, { key, records }) }
    for (const { id } of all.found) found.add(id)
  }
  const ids = [...found]
  if (ids.length > 1 && !field.several)
    return {
      fault: {
        name: 'wrong-type',
        message: `\`${texts.join(', ')}\` names ${ids.length} ${noun}s; write one`,
        help: `write a row for each ${noun}`,
      },
    }
  return checked(field, ids.length === 1 ? ids[0]! : ids)
}

function unclear(
  noun: string,
  { word, several }: { word: string; several: readonly { id: string }[] },
  { key, records }: { key: string; records: readonly { id: string }[] },
): CellFault {
  const ids = (several.length > 0 ? several : records).map(({ id }) => id)
  const among = ids.length > 8 ? `${ids.slice(0, 8).join(', ')} and more` : ids.join(', ')
  return {
    name: 'bad-id',
    message: several.length > 0 ? `\`${word}\` may mean ${among}` : `\`${word}\` is no ${noun} of the ledger`,
    help: `say in the mapping what it means: \`words: { ${key}: { "${word}": ${several[0]?.id ?? records[0]?.id ?? 'ID'} } }\`${several.length > 0 ? '' : `; ${noun}s: ${among || 'none yet'}`}`,
  }
}

function readOne(cell: string, field: ImportField, mapping: ImportMapping): CellResult {
  const { about, key } = field
  if (about.format === 'date') return readDate(cell, mapping.dates ?? 'iso')
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
