import { speedAndPoint } from '../compass.ts'
import { dayNumber } from '../date.ts'
import { GROWTH_STAGES, nearestStage, readStage } from '../growth-stage.ts'
import { ID_SHAPE } from '../kind-names.ts'
import { type Quantity, type Range, readQuantity, readRange } from '../quantity.ts'
import { readTimeRange, type TimeRange } from '../typed/time-range.ts'
import { readTypedDate } from '../typed/typed-date.ts'
import { asNumber, asText, field, quantityText, type Refuse, raise, rangeCheck, shown } from './field.ts'

function asWords(value: unknown, refuse: Refuse): string {
  const read = asText(value, refuse)
  if (read.trim() === '') refuse('missing-value', 'the text is empty', 'write it, or take the key out')
  return read
}

const LINE_BREAK = /[\n\r\x85\u2028\u2029]/

/** Longest text on one line, far above any name: tables would take too long to lay out a longer one. Our own choice. */
const LONGEST_LINE = 1000

/** Text on one line, for tables, titles and file formats where a line break would start something new. */
export function asLine(value: unknown, refuse: Refuse): string {
  const read = asWords(value, refuse)
  if (read.length > LONGEST_LINE)
    refuse(
      'text-too-long',
      `this text has ${read.length} letters, more than ${LONGEST_LINE}`,
      'shorten it; `note` takes long texts',
    )
  if (!LINE_BREAK.test(read)) return read
  // A block scalar ends in a line break that isn't part of the text.
  const trimmed = read.trimEnd()
  if (LINE_BREAK.test(trimmed))
    refuse('line-break', 'this text must be on one line', 'write it on one line; `note` takes several')
  return trimmed
}

export const text = (description: string, examples: string[] = []) =>
  field(asLine, { type: 'string', description, examples })

/** Remarks, on one or more lines. */
export const note = () => field(asWords, { type: 'string', description: 'anything else', examples: [] })

/** One of a list of words. @param also other words for some of them */
export const choice = <const T extends string>(
  words: readonly T[],
  description: string,
  also: Readonly<Record<string, T>> = {},
) =>
  field(
    (value, refuse) => {
      const said = asText(value, refuse)
      const word = Object.hasOwn(also, said) ? also[said]! : said
      if ((words as readonly string[]).includes(word)) return word as T
      return refuse(
        'unknown-word',
        `\`${shown(word)}\` is not one of the words here`,
        `write ${words.join(', ')}`,
      )
    },
    { type: 'string', enum: [...words, ...Object.keys(also)], description },
  )

/** A bare number within what is possible. */
export const number = (description: string, low = -1e9, high = 1e9, examples: number[] = []) =>
  field(
    (value, refuse) => {
      const read = asNumber(value, refuse)
      rangeCheck(read, low, high, refuse)
      return read
    },
    { type: 'number', minimum: low, maximum: high, description, examples },
  )

/** A whole number within what is possible. */
export const count = (description: string, low = 0, high = 1_000_000, examples: number[] = []) =>
  field(
    (value, refuse) => {
      const read = asNumber(value, refuse)
      if (!Number.isInteger(read))
        refuse('wrong-type', `expected a whole number, not ${read}`, 'write digits only')
      rangeCheck(read, low, high, refuse)
      return read
    },
    { type: 'integer', minimum: low, maximum: high, description, examples },
  )

/** Reads a quantity as a plain number in `unit`, within what is possible. */
export const measureIn =
  (unit: string, low: number, high: number) =>
  (value: unknown, refuse: Refuse): number => {
    const { range, fault } = readQuantity(quantityText(value, [unit], refuse), [unit])
    const wind = fault && unit === 'm/s' ? speedAndPoint(String(value)) : null
    if (wind)
      refuse(
        'not-a-quantity',
        `\`${shown(value)}\` is a speed and a direction`,
        `write \`wind: ${wind.speed}, from: ${wind.from}\``,
      )
    if (fault) return raise(fault, refuse)
    rangeCheck(range.low, low, high, refuse, unit)
    return range.low
  }

/** A quantity kept as a plain number in `unit`. */
export const measure = (unit: string, description: string, low: number, high: number, example: string) =>
  field(measureIn(unit, low, high), {
    type: 'string',
    description: `${description} (kept in ${unit})`,
    examples: [example],
    keeps: [unit],
  })

/** Smallest dose, content or volume: less is a typing mistake, and arithmetic divides by it. */
const LEAST = 1e-6

/** A quantity above zero that keeps its unit, one of those given (by kind of measure). */
export const quantity = (
  units: readonly string[],
  description: string,
  high: number,
  example: string,
  least: 0 | typeof LEAST = LEAST,
) =>
  field(
    (value, refuse): Quantity => {
      const { range, fault } = readQuantity(quantityText(value, units, refuse), units)
      if (fault) return raise(fault, refuse)
      const { low, unit } = range
      if (low >= 0 && low < least)
        refuse(
          'impossible-value',
          `${low} ${unit} is nothing`,
          'write how much it was, or take the entry out where there was none',
        )
      rangeCheck(low, 0, high, refuse, unit)
      return { value: low, unit }
    },
    { type: 'string', description, examples: [example], keeps: units },
  )

/** Reads a range that keeps its unit; `''` among the units allows bare numbers. */
export const rangeIn =
  (units: readonly string[], low: number, high: number) =>
  (value: unknown, refuse: Refuse): Range => {
    const { range, fault } = readRange(quantityText(value, units, refuse), units)
    if (fault) return raise(fault, refuse)
    for (const end of [range.low, range.high]) rangeCheck(end, low, high, refuse, range.unit)
    return range
  }

/** A range that keeps its unit. */
export const range = (
  units: readonly string[],
  description: string,
  low: number,
  high: number,
  example: string,
) =>
  field(rangeIn(units, low, high), {
    type: ['string', 'number'],
    description,
    examples: [example],
    keeps: units,
  })

/** An ISO date of the calendar. */
export const date = (description: string) =>
  field(
    (value, refuse) => {
      const text = asText(value, refuse)
      if (dayNumber(text) !== null) return text
      const { date, fault } = readTypedDate(text, { today: null, order: null })
      return fault ? raise({ name: 'bad-date', ...fault }, refuse) : date
    },
    { type: 'string', format: 'date', description, examples: ['2026-06-14'] },
  )

/** Clock times of a job. */
export const timeRange = (description: string) =>
  field(
    (value, refuse): TimeRange => {
      const { range, fault } = readTimeRange(asText(value, refuse))
      return fault ? raise({ name: 'bad-time', ...fault }, refuse) : range
    },
    { type: 'string', description, examples: ['18:40-20:05'] },
  )

/** A BBCH growth stage of the grapevine. */
export const growthStage = (description: string) =>
  field(
    (value, refuse) => {
      const stage = readStage(asText(value, refuse))
      if (stage === null)
        return refuse(
          'not-a-stage',
          `\`${shown(value)}\` is not a growth stage`,
          'write a BBCH number like 65, `E-L 23`, or words like `flowering` or `50 % veraison`; `rowbook explain stage` lists them',
        )
      if (GROWTH_STAGES.has(stage)) return stage
      const near = nearestStage(stage)
      return refuse(
        'not-a-stage',
        `${stage} is not on the BBCH scale of the grapevine`,
        `the nearest is ${near}, ${GROWTH_STAGES.get(near)}`,
      )
    },
    { type: 'integer', description, enum: [...GROWTH_STAGES.keys()] },
  )

/** The id that a name probably stands for, or null. */
function idLike(name: string): string | null {
  const plain = name.normalize('NFD').replace(/[\u0300-\u036f\u2018-\u201f]/g, '')
  const id = plain
    .trim()
    .toLowerCase()
    .replace(/[\s_]+/g, '-')
  return id.length <= 60 && ID_SHAPE.test(id) ? id : null
}

/** The id of another record: lower-case words joined by hyphens. */
export const id = (description: string) =>
  field(
    (value, refuse) => {
      const read = asText(value, refuse)
      if (!ID_SHAPE.test(read)) {
        const meant = idLike(read)
        refuse(
          'bad-id',
          `\`${shown(read)}\` is not an id`,
          meant
            ? `write \`${meant}\`: an id is lower-case words joined by hyphens`
            : 'an id is lower-case words joined by hyphens, like `top-terrace`',
        )
      }
      return read
    },
    { type: 'string', pattern: ID_SHAPE.source, description },
  )
