import type { Ledger } from '../../ledger/read/ledger.ts'
import type { PlainEntry, PlainValue } from '../../ledger/write/entry-text.ts'
import type { IsoDate } from '../../records/date.ts'
import type { Fault, Read } from '../../records/fault.ts'
import { veraisonShare } from '../../records/growth-stage.ts'
import { type SeasonKind, SINGULAR } from '../../records/kinds.ts'
import { findNamed } from '../../records/typed/named.ts'
import { siteWay } from '../../records/typed/site-way.ts'
import { readTypedDate } from '../../records/typed/typed-date.ts'
import { fieldsOf, type Kind, type NoteField, schemaOf } from './fields.ts'
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
  /** The entry that is changed, as it is written; nothing is filled in then that wasn't typed. */
  base?: PlainEntry | undefined
}

/**
 * Makes an entry of what was typed, on top of an entry like it where one is named. Left out, the date is the
 * day itself, and the block and the sprayer are the only ones that the ledger has.
 */
export function makeDraft(input: DraftInput): Draft {
  const { kind, asOf, typed, ledger, base } = input
  const faults: Draft['faults'] = []
  const made: PlainEntry = base ? { ...base } : { ...likeBase(input, faults), date: asOf }
  if (kind === 'sprays') setWeather(made, input, faults)
  setBlocks(made, input)
  fill({ entry: made, faults }, input)
  if (kind === 'stages') setShare(made, typed)
  if (!base && kind === 'sprays' && made.sprayer === undefined && ledger.sprayers.size === 1)
    made.sprayer = [...ledger.sprayers.keys()][0]!
  return { entry: inOrder(kind, made), faults }
}

type Typing = Pick<DraftInput, 'ledger' | 'asOf' | 'typed' | 'base'> & { kind: Kind }

/** Makes a standing record of what was typed, as its file will hold it. */
export function makeRecord(input: Typing): Draft {
  const draft: Draft = { entry: {}, faults: [] }
  fill(draft, input)
  return draft
}

/** Puts what was typed for each field into its place. */
function fill({ entry, faults }: Draft, input: Typing): void {
  for (const field of fieldsOf(input.kind)) {
    const texts = input.typed.get(field.option) ?? []
    if (texts.length === 0) continue
    const isTank = field.form === 'products' || field.form === 'targets'
    if (input.base && texts.at(-1) === '' && !isTank) {
      takeOut(entry, field.path)
      continue
    }
    const before = entry[field.path[0]!]
    const { value, fault } = isTank
      ? readTank(field, { texts, before: (before ?? []) as PlainEntry[], input })
      : readValue(field, texts, whenOf(input))
    if (fault) faults.push({ option: field.option, fault })
    else if (field.option === 'sprayer') put(entry, field.path, sprayerMeant(value, input.ledger))
    else put(entry, field.path, input.base && field.form === 'pairs' ? merged(before, value) : value)
  }
}

/** `50 % veraison` says how far it is too, which dates it more closely than the stage alone. */
function setShare(made: PlainEntry, typed: Typed): void {
  const said = veraisonShare(typed.get('stage')?.at(-1) ?? '')
  if (said !== null && !typed.has('share')) made.share = `${said} %`
}

function likeBase({ ledger, kind, asOf, blocks, like }: DraftInput, faults: Draft['faults']): PlainEntry {
  if (like === undefined) return {}
  const refuse = (message: string, help: string) => {
    faults.push({ option: 'like', fault: { message, help } })
    return {}
  }
  const day = like === 'last' ? undefined : readTypedDate(like, whenOf({ ledger, asOf }))
  if (day?.fault) return refuse(day.fault.message, 'write last, or the date of an entry')
  const found = likeEntries(ledger, kind, { asOf, blocks, ...(day ? { on: day.date } : {}) })
  const entry = found.at(-1)
  const noun = SINGULAR[kind]
  const where = blocks.length > 0 ? ` of ${blocks.join(', ')}` : ''
  if (!entry) {
    const when = day ? ` on ${day.date}` : ''
    return refuse(`no ${noun}${where}${when} is recorded to start from`, 'write the entry in full')
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
  ...siteWay(ledger.vineyard),
  full: ledger.vineyard.harvest,
})

function setBlocks(made: PlainEntry, { kind, blocks, ledger }: DraftInput): void {
  const field = fieldsOf(kind).find(({ form }) => form === 'blocks')
  if (!field) return
  const key = field.path[0]!
  const only = ledger.blocks.size === 1 && made[key] === undefined ? [...ledger.blocks.keys()] : []
  const ids = blocks.length > 0 ? [...blocks] : only
  if (ids.length > 0) made[key] = key === 'blocks' ? ids : ids[0]!
}

/** The products of a spray, by what was typed for `--product` or `--for`. */
function readTank(
  { form }: NoteField,
  { texts, before, input }: { texts: readonly string[]; before: readonly PlainEntry[]; input: Typing },
): Read<{ value: PlainEntry[] }> {
  const { ledger, base } = input
  if (form === 'targets') return setTargets(before, texts, ledger)
  const out = new Set(base ? texts.flatMap((text) => takenOut(text, ledger)) : [])
  const named = texts.filter((text) => out.size === 0 || takenOut(text, ledger).length === 0)
  const read = readProducts(named, before, ledger)
  return read.fault || !base ? read : { value: changed(before, read.value, out) }
}

/** The product of `sulphur-80=none`, which takes it out of the tank. */
function takenOut(text: string, { products }: DraftInput['ledger']): string[] {
  const said = /^([^=]*)=\s*(?:none|-)?$/.exec(text.trimEnd())?.[1]
  return said === undefined ? [] : [findNamed(said, products.values()).found?.id ?? said.trim()]
}

/** A tank with some of its products dosed otherwise, added, or taken out; the others stay. */
function changed(
  before: readonly PlainEntry[],
  parts: readonly PlainEntry[],
  out: ReadonlySet<string>,
): PlainEntry[] {
  const kept = before
    .filter(({ product }) => !out.has(String(product)))
    .map((part) => {
      const said = parts.find(({ product }) => product === part.product)
      if (!said) return part
      const { product, rate: _rate, amount: _amount, concentration: _concentration, ...rest } = part
      return { product: product!, ...said, ...rest }
    })
  const known = new Set(kept.map(({ product }) => product))
  return [...kept, ...parts.filter(({ product }) => !known.has(product))]
}

/** Pairs that were typed, on top of those that stand. */
function merged(before: PlainValue | undefined, said: PlainValue): PlainValue {
  if (typeof before !== 'object' || Array.isArray(before) || typeof said !== 'object' || Array.isArray(said))
    return said
  const all: PlainEntry = { ...before }
  for (const [key, value] of Object.entries(said)) all[key] = merged(before[key], value)
  return all
}

function setWeather(made: PlainEntry, { typed, base }: DraftInput, faults: Draft['faults']): void {
  const text = typed.get('weather')?.at(-1)
  if (text === undefined) return
  const read = readWeather(text)
  if (read.fault) faults.push({ option: 'weather', fault: read.fault })
  else if (Object.keys(read.weather).length > 0)
    made.weather = base ? merged(made.weather, read.weather) : read.weather
}

function put(made: PlainEntry, path: readonly string[], value: PlainValue): void {
  const [first, second] = path as [string, string?]
  if (second === undefined) made[first] = value
  else made[first] = { ...(made[first] as PlainEntry | undefined), [second]: value }
}

/** Takes the value at a path out of an entry, with the maps that it leaves empty. */
export function takeOut(entry: PlainEntry, [key, ...deeper]: readonly string[]): void {
  const inner = entry[key!]
  if (deeper.length === 0) delete entry[key!]
  else if (typeof inner === 'object' && !Array.isArray(inner)) {
    const rest = { ...inner }
    takeOut(rest, deeper)
    if (Object.keys(rest).length > 0) entry[key!] = rest
    else delete entry[key!]
  }
}

function inOrder(kind: SeasonKind, made: PlainEntry): PlainEntry {
  const keys = Object.keys(schemaOf(kind).shape).filter((key) => made[key] !== undefined)
  return Object.fromEntries(keys.map((key) => [key, made[key]!]))
}
