import { dayNumber } from '../../records/date.ts'
import { isNumeric } from '../../records/fields/shape.ts'
import { findAllNamed } from '../../records/typed/named.ts'
import { inSiteUnits, siteWay } from '../../records/typed/site-way.ts'
import { readTypedDate } from '../../records/typed/typed-date.ts'
import type { Ledger } from '../read/ledger.ts'
import { nearest } from '../read/read-entry.ts'
import { type PlainValue, writtenNumber } from '../write/entry-text.ts'
import { asClock } from './clock-text.ts'
import type { ImportField, ImportMapping } from './mapping.ts'

type DateForm = 'iso' | 'day-first' | 'month-first'

interface CellFault {
  name: string
  message: string
  help: string
}

type Result<T> = { value: T; fault?: undefined } | { value?: undefined; fault: CellFault }
type CellResult = Result<PlainValue>

interface Reading {
  mapping: ImportMapping
  ledger: Ledger
  /** The column's date order, where the mapping or its cells show it. */
  dates?: DateForm | null
}

type Words = Record<string, PlainValue>

/** The mapping's meaning of a word, in any case. */
function wordIn(words: Words | undefined, said: string): PlainValue | undefined {
  if (!words) return undefined
  if (Object.hasOwn(words, said)) return words[said]
  const key = Object.keys(words).find((one) => one.trim().toLowerCase() === said.trim().toLowerCase())
  return key === undefined ? undefined : words[key]
}

const fault = (name: string, message: string, help: string): Result<never> => ({
  fault: { name, message, help },
})

/** Reads one cell into an entry's value; a cell that can be read in two ways is a fault. */
export function readCell(cell: string, field: ImportField, reading: Reading): CellResult {
  const words = reading.mapping.words?.[field.key]
  const meant = wordIn(words, cell)
  if (isId(field) && field.key !== 'for') return readNames(meant ?? cell, field, { ...reading, words })
  if (meant !== undefined) return checked(field, meant)
  const pieces = field.several ? cell.split(isId(field) ? /[;,+]/ : ';') : [cell]
  const values: PlainValue[] = []
  for (const piece of pieces.map((one) => one.trim()).filter((one) => one !== '')) {
    const value = wordIn(words, piece)
    const one = value === undefined ? readOne(piece, field, reading) : { value }
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
  { words, ledger }: { words: Words | undefined; ledger: Ledger },
): CellResult {
  const { key } = field
  const noun = key === 'product' || key === 'sprayer' ? key : 'block'
  const records = [...ledger[`${noun}s`].values()] as { id: string; name: string }[]
  const texts = [said].flat().map(String)
  const inWords = (text: string) =>
    text
      .split(/([;,+&/]|\band\b)/i)
      .map((one) => [wordIn(words, one.trim()) ?? one].flat().join(','))
      .join(' ')
  const found = new Set<string>()
  for (const text of texts) {
    const all = firstClear([inWords(text), bareName(text)], records)
    if (all.unclear) return unclear(noun, all.unclear, { key, records })
    for (const { id } of all.found) found.add(id)
  }
  const ids = [...found]
  if (ids.length > 1 && !field.several) {
    const message = `\`${texts.join(', ')}\` names ${ids.length} ${noun}s; write one`
    return fault('wrong-type', message, `write a row for each ${noun}`)
  }
  return checked(field, ids.length === 1 ? ids[0]! : ids)
}

/** A product name without its label's suffix: `Sulphur 80 (wettable granules)`, `Sulphur-80 WG`. */
const bareName = (text: string): string =>
  text
    .replace(/\([^()]{0,80}\)/g, '')
    .replace(/\s{1,9}(?:WG|WDG|WP|SC|EC|SL|SP|SG|DF|EW|OD|CS)$/i, '')
    .trim()

/** The records named by the first unambiguous text; else what is unclear in the first text. */
function firstClear(texts: readonly string[], records: readonly { id: string; name: string }[]) {
  const all = texts.map((text) => findAllNamed(text, records))
  return all.find(({ unclear, found }) => !unclear && found.length > 0) ?? all[0]!
}

function unclear(
  noun: string,
  { word, several }: { word: string; several: readonly { id: string }[] },
  { key, records }: { key: string; records: readonly { id: string }[] },
): CellResult {
  const ids = (several.length > 0 ? several : records).map(({ id }) => id)
  const near = several[0] ?? records.find(({ id }) => nearest(word, [id]) !== null)
  const among = ids.length > 8 ? `${ids.slice(0, 8).join(', ')} and more` : ids.join(', ')
  const help = `write in the mapping what it means: \`words: { ${key}: { "${word}": ${near?.id ?? 'ID'} } }\``
  if (several.length > 0) return fault('bad-id', `\`${word}\` may mean ${among}`, help)
  const message = `\`${word}\` is not a ${noun} of the ledger`
  return fault('bad-id', message, `${help}; ${noun}s: ${among || 'none yet'}`)
}

function readOne(cell: string, field: ImportField, { mapping, ledger, dates }: Reading): CellResult {
  const { about, key } = field
  if (about.format === 'date') return readDate(cell, dates ?? null, ledger)
  if (!isNumeric(about) && !about.keeps) return { value: cell }
  const match = /^([+-]?(?:[.,]*\d)+)((?:\D.*)?)$/.exec(cell)
  if (!match) return { value: cell }
  const number = readNumber(match[1]!, mapping.decimal ?? 'point')
  if (number.fault) return number
  const written = match[2]!.trim()
  const unit = written || mapping.units?.[key] || ''
  if (about.keeps && unit !== '')
    return { value: `${number.value} ${inSiteUnits(unit, ledger.vineyard.units)}` }
  if (written !== '') return { value: cell }
  if (about.keeps && !about.keeps.includes('')) {
    const message = `\`${cell}\` has no unit, and the mapping names none for ${key}`
    return fault('needs-unit', message, `write \`units: { ${key}: ${about.keeps[0]} }\` into the mapping`)
  }
  return { value: writtenNumber(number.value) }
}

function readNumber(text: string, decimal: 'point' | 'comma'): Result<string> {
  const isComma = decimal === 'comma'
  if ((isComma ? /^[+-]?\d+(?:,\d+)?$/ : /^[+-]?\d+(?:\.\d+)?$/).test(text))
    return { value: text.replace(',', '.').replace(/^\+/, '') }
  const holds = /[.,].*[.,]/.test(text) ? 'more than one mark' : isComma ? 'a point' : 'a comma'
  return fault(
    isComma ? 'wrong-type' : 'decimal-comma',
    `\`${text}\` holds ${holds}, and the mapping says that decimals have a ${decimal}`,
    isComma
      ? 'take marks for thousands out, or write `decimal: point` into the mapping if the file has points'
      : 'write `decimal: comma` into the mapping if the file has commas',
  )
}

/**
 * Reads a date in the column's form: year first, in the order given by the mapping or shown by other cells, with the
 * month as a word, or, where day and month could be either, by the site's country.
 */
function readDate(text: string, form: DateForm | null, { vineyard }: Ledger): CellResult {
  const numbers = /^(\d{1,2})[./-](\d{1,2})[./-](\d{4}|\d{2})$/.exec(text)
  if (!numbers || form === null || form === 'iso') {
    const { order } = form === 'iso' && numbers ? { order: null } : siteWay(vineyard)
    const read = readTypedDate(asClock(text).split(/\s/)[0]!, { today: null, order })
    if (!read.fault) return { value: read.date }
    return fault('bad-date', read.fault.message, `${read.fault.help}; ${SAY_DATES}`)
  }
  const [day, month] = form === 'day-first' ? [numbers[1]!, numbers[2]!] : [numbers[2]!, numbers[1]!]
  const year = numbers[3]!.length === 2 ? `20${numbers[3]}` : numbers[3]
  const iso = `${year}-${month.padStart(2, '0')}-${day.padStart(2, '0')}`
  if (dayNumber(iso) !== null) return { value: iso }
  const help = `dates of this column are written ${form}, like ${form === 'day-first' ? '14.6.2026' : '6/14/2026'}`
  return fault('bad-date', `\`${text}\` is not a date of the calendar`, help)
}

const SAY_DATES = 'or say `dates: day-first` or `dates: month-first` in the mapping'

function checked({ schema }: ImportField, value: PlainValue): CellResult {
  const result = schema.safeParse(value)
  if (result.success) return { value }
  const issue = result.error.issues[0]!
  const params = issue.code === 'custom' ? issue.params : undefined
  return fault(params?.name ?? 'wrong-type', issue.message, params?.help ?? 'check the cell')
}
