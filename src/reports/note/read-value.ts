import type { z } from 'zod'
import type { PlainEntry, PlainValue } from '../../ledger/write/entry-text.ts'
import { addAll } from '../../records/add-all.ts'
import { type Fault, fault, type Read } from '../../records/fault.ts'
import {
  type FullContainers,
  notWeighed,
  readContainers,
  weightOf,
} from '../../records/fields/fruit-weight.ts'
import { shapeOf } from '../../records/fields/shape.ts'
import { readStage } from '../../records/growth-stage.ts'
import { inUnitsOf } from '../../records/quantity.ts'
import { typedRain } from '../../records/typed/rain.ts'
import { inSiteUnits, type SiteWay } from '../../records/typed/site-way.ts'
import { readTimeRange, timeRangeText } from '../../records/typed/time-range.ts'
import { type DayOrder, readTypedDate } from '../../records/typed/typed-date.ts'
import { convert } from '../../records/units.ts'
import type { NoteField } from './fields.ts'
import { checked, tidy } from './read.ts'
import { readActive, readUse } from './read-label.ts'

type ValueResult = Read<{ value: PlainValue }>

/** The day of typing, and which number comes first in dates at the site. */
export interface When {
  today: string
  order: DayOrder
  /** Whose gallon is meant. */
  units: SiteWay['units']
  /** What full buckets and crates weigh at the site. */
  full?: FullContainers | undefined
}

/** Reads what was typed for a field that takes a value, readings or pairs, as it will stand in the file. */
export function readValue(field: NoteField, texts: readonly string[], when: When): ValueResult {
  const read = readAsTyped(field, texts, when)
  return read.fault ? { fault: { ...read.fault, help: inUnitsOf(read.fault.help, when.units) } } : read
}

function readAsTyped(field: NoteField, texts: readonly string[], when: When): ValueResult {
  if (field.form === 'pairs') return readPairs(field, texts)
  const isOfLabel = field.form === 'actives' || field.form === 'uses'
  const inOwn = field.about.keeps || isOfLabel
  const meant = inOwn ? texts.map((text) => inSiteUnits(text, when.units)) : texts
  if (isOfLabel) return readEach(meant, field.form === 'uses' ? readUse : readActive)
  if (field.form === 'list') return readList(field, meant)
  const text = meant.at(-1)!
  if (field.about.format === 'date') {
    const day = readTypedDate(text, when)
    return day.fault ? { fault: day.fault } : { value: day.date }
  }
  const counted = field.about.keeps?.includes('kg') ? readContainers(text) : null
  if (counted) {
    const kg = weightOf(counted, when.full)
    if (kg === null) return { fault: notWeighed(counted, when.units) }
    return checked(
      field.schema,
      when.units === 'metric' ? `${kg} kg` : `${Number(convert(kg, 'kg', 'lb').toFixed(2))} lb`,
    )
  }
  const rain = field.path.join() === 'rain' ? typedRain(text, when.units) : null
  if (rain !== null) return checked(field.schema, rain)
  if (field.option === 'stage') return checked(field.schema, readStage(text) ?? text.trim())
  return checked(field.schema, field.option === 'time' ? clockAsWritten(text) : tidy(text, field.about))
}

/** Clock times as the file writes them, whichever way they were typed. */
function clockAsWritten(text: string): string {
  const { range } = readTimeRange(text)
  return range ? timeRangeText(range) : text.trim()
}

/** A list of which each item was typed by itself. */
function readEach(
  texts: readonly string[],
  read: (text: string) => Read<{ value: PlainEntry }>,
): Read<{ value: PlainValue }> {
  const all = texts.map(read)
  return all.find(({ fault }) => fault) ?? { value: all.map(({ value }) => value!) }
}

/**
 * Readings parted by commas, or given one by one. `19,6` could be two readings or one with a decimal comma:
 * whole numbers without a space behind the comma are refused, unless the field counts bunches.
 */
function readList(field: NoteField, texts: readonly string[]): ValueResult {
  const pieces: string[] = []
  for (const text of texts) {
    const parts = text.split(',').map((part) => part.trim())
    const doubtful =
      parts.length > 1 &&
      field.path[0] !== 'bunches_per_vine' &&
      /^\d+(?:,\d+)+(?:\s*[^\d\s,.].*)?$/.test(text.trim())
    if (doubtful) {
      const point = text.trim().replace(',', '.')
      const several = parts.join(', ')
      return fault(
        `\`${text}\` can be read in two ways`,
        `write a point for decimals${parts.length === 2 ? `, ${point}` : ''}, or a space behind each comma between readings, "${several}"`,
      )
    }
    addAll(
      pieces,
      parts.filter((part) => part !== ''),
    )
  }
  const values = pieces.map((piece) => tidy(piece, field.about))
  return checked(field.schema, values.length === 1 ? values[0]! : values)
}

/** `bunches=100`, `powdery.severity=3 %`, several of them parted by commas or spaces, into a map. */
function readPairs(field: NoteField, texts: readonly string[]): ValueResult {
  const made: Record<string, PlainValue> = {}
  for (const pair of texts.flatMap((text) => text.split(/(?<!\s)(?:,\s*|\s+)(?=[\w.-]+=)/))) {
    const cut = pair.indexOf('=')
    const steps = pair.slice(0, Math.max(0, cut)).trim().split('.')
    const fault = cut < 1 ? wanted(field, pair) : place(made, field.schema, steps, pair.slice(cut + 1))
    if (fault) return { fault }
  }
  return { value: made }
}

function place(
  made: Record<string, PlainValue>,
  schema: z.ZodType,
  steps: string[],
  text: string,
): Fault | null {
  const [step, ...rest] = steps
  const shape = shapeOf(schema)
  const keys = shape.kind === 'map' ? shape.keys : {}
  const inner = Object.hasOwn(keys, step!) ? keys[step!] : shape.kind === 'table' ? shape.value : undefined
  if (!inner) {
    const known = Object.keys(keys).join(', ')
    return { message: `\`${step}\` is not known here`, help: known ? `known: ${known}` : 'write KEY=VALUE' }
  }
  const below = shapeOf(inner)
  if (rest.length > 0) {
    const deeper = (made[step!] ?? {}) as Record<string, PlainValue>
    made[step!] = deeper
    return place(deeper, inner, rest, text)
  }
  if (below.kind === 'map')
    return {
      message: `\`${step}\` is not precise enough`,
      help: `write ${step}.${Object.keys(below.keys)[0]}=NUMBER; known: ${Object.keys(below.keys).join(', ')}`,
    }
  const about = below.kind === 'value' ? below.about : {}
  const result = checked(inner, tidy(text, about))
  if (result.fault) return { message: `${steps.join('.')}: ${result.fault.message}`, help: result.fault.help }
  made[step!] = result.value
  return null
}

const PAIRS: Readonly<Record<string, string>> = {
  found: 'powdery.bunches=4',
  titration: '"sample=10 mL"',
  cleared: '"by=R. Vos, adviser"',
}

const wanted = ({ option }: NoteField, pair: string): Fault => ({
  message: `\`${pair}\` is not KEY=VALUE`,
  help: `write it as --${option} ${PAIRS[option] ?? 'bunches=100'}`,
})
