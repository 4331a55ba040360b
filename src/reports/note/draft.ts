import type { Ledger } from '../../ledger/read/ledger.ts'
import type { PlainEntry, PlainValue } from '../../ledger/write/entry-text.ts'
import type { IsoDate } from '../../records/date.ts'
import { SEASONAL, type SeasonKind, SINGULAR } from '../../records/kinds.ts'
import { dayOrderOf, type Fault, readSaidDate } from '../../records/said-date.ts'
import { findNamed } from '../../records/said-name.ts'
import { fieldsOf, type NoteField } from './fields.ts'
import { carried, likeEntries } from './like.ts'
import { readProducts, setTargets } from './read-products.ts'
import { readValue, type When } from './read-value.ts'
import { readWeather } from './read-weather.ts'

/** What was typed: texts by option. */
export type Typed = ReadonlyMap<string, readonly string[]>

/** An entry on its way: what it has, and which option was typed in a way that can't be read. */
export interface Draft {
  entry: PlainEntry
  faults: { option: string; fault: Fault }[]
}

export interface DraftInput {
  ledger: Ledger
  kind: SeasonKind
  asOf: IsoDate
  /** Blocks typed, as ids. */
  blocks: readonly string[]
  typed: Typed
  /** `last` or a day. */
  like?: string | undefined
}

/**
 * Makes an entry of what was typed, on top of an entry like it where one is named. Left out, the date is the
 * day itself, and the block and the sprayer are the only ones that the ledger has.
 */
export function makeDraft(input: DraftInput): Draft {
  const { kind, asOf, typed, ledger } = input
  const faults: Draft['faults'] = []
  const base = likeBase(input, faults)
  const made: PlainEntry = { ...base, date: asOf }
  if (kind === 'sprays') setWeather(made, typed, faults)
  for (const field of fieldsOf(kind)) {
    const texts = typed.get(field.option)
    if (field.form === 'blocks') setBlocks(made, field, input)
    else if (field.form === 'products' || field.form === 'targets') setProducts(made, field, input, faults)
    else if (texts !== undefined && texts.length > 0) {
      const read = readValue(field, texts, whenOf(input))
      if (read.fault) faults.push({ option: field.option, fault: read.fault })
      else put(made, field.path, field.option === 'sprayer' ? sprayerMeant(read.value, ledger) : read.value)
    }
  }
  if (kind === 'sprays' && made.sprayer === undefined && ledger.sprayers.size === 1)
    made.sprayer = [...ledger.sprayers.keys()][0]!
  return { entry: inOrder(kind, made), faults }
}

function likeBase({ ledger, kind, asOf, blocks, like }: DraftInput, faults: Draft['faults']): PlainEntry {
  if (like === undefined) return {}
  const refuse = (message: string, help: string) => {
    faults.push({ option: 'like', fault: { message, help } })
    return {}
  }
  const day = like === 'last' ? undefined : readSaidDate(like, whenOf({ ledger, asOf }))
  if (day?.fault) return refuse(day.fault.message, 'write last, or the date of an entry')
  const found = likeEntries(ledger, kind, { asOf, blocks, ...(day ? { on: day.date } : {}) })
  const entry = found.at(-1)
  const noun = SINGULAR[kind]
  const where = blocks.length > 0 ? ` of ${blocks.join(', ')}` : ''
  if (!entry) {
    const when = day ? ` on ${day.date}` : ''
    return refuse(`the book has no ${noun}${where}${when} to begin with`, 'write the entry in full')
  }
  if (day && found.length > 1 && blocks.length === 0)
    return refuse(`there are ${found.length} such entries on ${day.date}`, 'name the block with --block')
  return carried(kind, entry)
}

/** The id of the sprayer that a name, or a part of one, fits alone; else as typed, which `unknown-sprayer` will tell. */
const sprayerMeant = (typed: PlainValue, { sprayers }: DraftInput['ledger']): PlainValue =>
  findNamed(String(typed), sprayers.values()).found?.id ?? typed

/** The day of typing at the site, for dates as people say them. */
export const whenOf = ({ ledger, asOf }: Pick<DraftInput, 'ledger' | 'asOf'>): When => ({
  today: asOf,
  order: dayOrderOf(ledger.vineyard.timezone),
})

function setBlocks(made: PlainEntry, { path }: NoteField, { blocks, ledger }: DraftInput): void {
  const key = path[0]!
  const only = ledger.blocks.size === 1 && made[key] === undefined ? [...ledger.blocks.keys()] : []
  const ids = blocks.length > 0 ? [...blocks] : only
  if (ids.length === 0) return
  made[key] = key === 'blocks' ? ids : ids[0]!
}

function setProducts(made: PlainEntry, field: NoteField, input: DraftInput, faults: Draft['faults']): void {
  const texts = input.typed.get(field.option)
  if (texts === undefined || texts.length === 0) return
  const before = (made.products ?? []) as PlainEntry[]
  const read =
    field.form === 'products'
      ? readProducts(texts, before, input.ledger)
      : setTargets(before, texts, input.ledger)
  if (read.fault) faults.push({ option: field.option, fault: read.fault })
  else made.products = read.parts
}

function setWeather(made: PlainEntry, typed: Typed, faults: Draft['faults']): void {
  const text = typed.get('weather')?.at(-1)
  if (text === undefined) return
  const read = readWeather(text)
  if (read.fault) faults.push({ option: 'weather', fault: read.fault })
  else if (Object.keys(read.weather).length > 0) made.weather = read.weather
}

function put(made: PlainEntry, path: readonly string[], value: PlainValue): void {
  const [first, second] = path as [string, string?]
  if (second === undefined) made[first] = value
  else made[first] = { ...(made[first] as PlainEntry | undefined), [second]: value }
}

function inOrder(kind: SeasonKind, made: PlainEntry): PlainEntry {
  const keys = Object.keys(SEASONAL[kind].shape).filter((key) => made[key] !== undefined)
  return Object.fromEntries(keys.map((key) => [key, made[key]!]))
}
