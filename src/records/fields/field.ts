import * as z from 'zod'
import type { NamedFault } from '../fault.ts'
import { unitsLike } from '../quantity.ts'

// Compiling a schema pays off only with thousands of records, and slows every short command.
z.config({ jitless: true })

export type Refuse = (name: string, message: string, help: string) => never

/** A field with its own reader: `read` returns the value, or reports a fault through `refuse`. */
export function field<T>(read: (value: unknown, refuse: Refuse) => T, meta: Record<string, unknown>) {
  return (
    z
      .unknown()
      // `meta` would make the schema a second time.
      .register(z.globalRegistry, meta)
      .transform((value, context): T => {
        try {
          return read(value, (name, message, help) => {
            throw new Refusal({ name, message, help })
          })
        } catch (error) {
          if (!(error instanceof Refusal)) throw error
          raiseAt(context, [], error.fault)
          return z.NEVER
        }
      })
  )
}

class Refusal extends Error {
  constructor(readonly fault: NamedFault) {
    super(fault.message)
  }
}

/** Reports a fault of a record, at one of its fields or at the whole: in zod's `params`, for the ledger to place. */
export function raiseAt(
  context: z.RefinementCtx<unknown>,
  path: (string | number)[],
  { name, message, help }: NamedFault,
): void {
  context.addIssue({ code: 'custom', path, message, params: { name, help } })
}

const isMissing = (value: unknown): value is null | undefined => value === null || value === undefined

const refuseMissing = (refuse: Refuse): never =>
  refuse('missing-value', 'the value is missing', 'write it, or take the key out')

export const shown = (value: unknown): string => {
  const text = typeof value === 'string' ? value : JSON.stringify(value)
  return text === undefined ? 'nothing' : text.length > 60 ? `${text.slice(0, 57)}...` : text
}

export function asText(value: unknown, refuse: Refuse): string {
  if (typeof value === 'string') return value
  if (typeof value === 'number' || typeof value === 'boolean') return String(value)
  if (isMissing(value)) return refuseMissing(refuse)
  const words = Array.isArray(value) ? value : Object.keys(value)
  return refuse(
    'wrong-type',
    `expected text, not ${Array.isArray(value) ? 'a list' : 'braces'}`,
    words.length === 1 ? `write \`${shown(words[0])}\` without brackets or braces` : 'write it on one line',
  )
}

const DECIMAL = /^[+-]?(?:\d+(?:\.\d*)?|\.\d+)$/
export function asNumber(value: unknown, refuse: Refuse): number {
  if (typeof value === 'number' && Number.isFinite(value)) return value
  const text = typeof value === 'string' ? value.trim() : ''
  if (DECIMAL.test(text)) return Number(text)
  const comma = /^([+-]?\d+),(\d+)$/.exec(text)
  if (comma)
    refuse(
      'decimal-comma',
      `\`${text}\` has a comma in its number`,
      `write a point: \`${comma[1]}.${comma[2]}\``,
    )
  if (isMissing(value)) return refuseMissing(refuse)
  return refuse('wrong-type', `expected a plain number, not \`${shown(value)}\``, numberHelp(String(value)))
}

/** Degrees, minutes and seconds with or without a letter, `52 06' N`, as decimal degrees; south and west are negative. */
function degreesIn(text: string): number | null {
  const found =
    /^([+-]?\d{1,3}(?:\.\d{1,9})?) ?(?:\u00b0|\u00ba|deg)? ?(?:(\d{1,2}(?:\.\d{1,9})?) ?['\u2032\u2019] ?(?:(\d{1,2}(?:\.\d{1,9})?) ?(?:"|\u2033|\u201d|''))?)? ?([NSEW])?$/i.exec(
      text.trim(),
    )
  if (!found || (found[2] ?? found[4]) === undefined) return null
  const [, degrees, minutes = '0', seconds = '0', letter = ''] = found
  const size = Math.abs(Number(degrees)) + Number(minutes) / 60 + Number(seconds) / 3600
  const isNegative = degrees!.startsWith('-') || /[SW]/i.test(letter)
  return Number((isNegative ? -size : size).toFixed(4))
}

/** What to write instead of a text that should be a number: the number alone, or several in brackets. */
function numberHelp(text: string): string {
  const degrees = degreesIn(text)
  if (degrees !== null) return `write it in degrees with decimals: \`${degrees}\``
  const numbers = text.match(/\d+(?:\.\d+)?/g) ?? []
  const words = text.replaceAll(/\d+(?:\.\d+)?/g, '')
  if (numbers.length > 1 && /^[\s,;/]*$/.test(words))
    return `write several as a list: \`[${numbers.join(', ')}]\``
  if (numbers.length === 1 && /^\s*[A-Za-z\u00b0%]+\s*$/.test(words))
    return `write the number alone: \`${numbers[0]}\``
  return 'write digits, with a point for decimals and no unit'
}

export function rangeCheck(value: number, low: number, high: number, refuse: Refuse, unit = ''): void {
  if (value >= low && value <= high) return
  const sign = unit && ` ${unit === 'C' ? '°C' : unit}`
  const short = Number(value.toPrecision(4))
  // A count is told whole, and so is a value that only its last digits put outside.
  const told = Number.isInteger(value) || (short >= low && short <= high) ? value : short
  refuse(
    'impossible-value',
    `${told}${sign} is outside what is possible, ${low} to ${high}${sign}`,
    'check the figure, its decimal point and its unit',
  )
}

export function quantityText(value: unknown, accepts: readonly string[], refuse: Refuse): string {
  if (isMissing(value)) return refuseMissing(refuse)
  if (typeof value !== 'string' && typeof value !== 'number') {
    return refuse(
      'wrong-type',
      `expected a number with a unit, not ${shown(value)}`,
      `units here: ${unitsLike(accepts).join(', ')}`,
    )
  }
  return String(value)
}

export const raise = ({ name, message, help }: NamedFault, refuse: Refuse): never =>
  refuse(name, message, help)

/** Yes or no. */
export const truth = (description: string) =>
  field(
    (value, refuse) => {
      if (value === true || value === 'yes') return true
      if (value === false || value === 'no') return false
      if (isMissing(value)) return refuseMissing(refuse)
      return refuse('wrong-type', `\`${shown(value)}\` is neither true nor false`, 'write true or false')
    },
    { type: 'boolean', description },
  )

/** One value or a list of values, always returned as a list; the schema writer expands `oneOrMore`. */
export const oneOrMore = <T extends z.ZodType>(inner: T, description: string) =>
  z
    .unknown()
    .register(z.globalRegistry, { description, oneOrMore: inner })
    .transform((value, context): z.output<T>[] => {
      const list = Array.isArray(value) ? value : [value]
      if (list.length === 0)
        raiseAt(context, [], {
          name: 'missing-value',
          message: 'the list is empty',
          help: 'write at least one',
        })
      const read: z.output<T>[] = []
      list.forEach((item, index) => {
        const result = inner.safeParse(item)
        if (result.success) read.push(result.data)
        for (const issue of result.error?.issues ?? [])
          context.addIssue({
            ...issue,
            path: Array.isArray(value) ? [index, ...issue.path] : issue.path,
          } as never)
      })
      return read
    })

/** Makes something slow on first use: most runs parse only one kind of record, or none. */
export function atFirstUse<T>(make: () => T): () => T {
  let made: { thing: T } | undefined
  return () => {
    made ??= { thing: make() }
    return made.thing
  }
}

/** The same kind of field under each of some keys. */
export const underEach = <K extends string, T>(keys: readonly K[], make: (key: K) => T) =>
  Object.fromEntries(keys.map((key) => [key, make(key)])) as Record<K, T>
