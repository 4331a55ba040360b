import type { z } from 'zod'
import type { Fault } from '../../records/typed/typed-date.ts'

/** What was read from a typed text, or what is wrong with it. */
export type Read<T> = (T & { fault?: undefined }) | ({ [K in keyof T]?: undefined } & { fault: Fault })

export const fault = (message: string, help: string): { fault: Fault } => ({ fault: { message, help } })

type Issue = z.core.$ZodIssue

/** Which of our own rules a value breaks, with its way out; neither where the schema itself refused it. */
export const ruleOf = (issue: Issue): { name?: string; help?: string } =>
  (issue.code === 'custom' && issue.params) || {}

/** What is wrong by a schema, as a grower is told; `help` is for what has no way out of its own. */
export const faultOf = (issue: Issue, help = ''): { fault: Fault } =>
  fault(issue.message, ruleOf(issue).help ?? help)
