import type { Level } from '../../../src/ledger/read/finding.ts'
import type { Files } from '../limits/both-sides.ts'

/** A case of one rule: what it is, the levels told (none where the rule is silent), the files and the day of looking. */
export type Told = [what: string, levels: readonly Level[], files: Files, asOf?: string]
export const ERROR: readonly Level[] = ['error']
export const WARNING: readonly Level[] = ['warning']
export const HINT: readonly Level[] = ['hint']
export const NONE: readonly Level[] = []
