import type { z } from 'zod'
import { type PlainValue, writtenNumber } from '../../ledger/write/entry-text.ts'
import { type Fault, fault, type Read } from '../../records/fault.ts'
import { type About, isNumeric } from '../../records/fields/shape.ts'

type Issue = z.core.$ZodIssue

/** Which of our own rules a value breaks, with its way out; neither where the schema itself refused it. */
export const ruleOf = (issue: Issue): { name?: string; help?: string } =>
  (issue.code === 'custom' && issue.params) || {}

/** What is wrong by a schema, as a grower is told; `help` is for what has no way out of its own. */
export const faultOf = (issue: Issue, help = ''): { fault: Fault } =>
  fault(issue.message, ruleOf(issue).help ?? help)

/** The value as it should be written: numbers as numbers, a space before each unit, words as they are. */
export function tidy(text: string, about: About): PlainValue {
  const trimmed = text.trim()
  if (about.type === 'boolean') {
    if (/^(true|yes|y)$/i.test(trimmed)) return true
    return /^(false|no|n)$/i.test(trimmed) ? false : trimmed
  }
  const plain = /^[+-]?(?:\d+(?:\.\d+)?|\.\d+)$/.test(trimmed)
  if (isNumeric(about) || about.keeps?.includes('')) return plain ? writtenNumber(trimmed) : trimmed
  if (!about.keeps) return trimmed
  const quantity =
    /^([+-]?(?:\d+(?:\.\d+)?|\.\d+)(?:\s*(?:-|\u2013|\bto\b)\s*(?:\d+(?:\.\d+)?|\.\d+))?)\s*([^\d\s.,-].*)$/.exec(
      trimmed,
    )
  return quantity
    ? `${quantity[1]!.replace(/\s/g, '').replace(/\u2013|to/, '-')} ${quantity[2]!.replace(/\s+/g, ' ')}`
    : trimmed
}

/** Checks a value against its schema. */
export function checked(schema: z.ZodType, value: PlainValue): Read<{ value: PlainValue }> {
  const result = schema.safeParse(value)
  return result.success ? { value } : faultOf(result.error.issues[0]!)
}
