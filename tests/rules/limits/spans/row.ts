import type { Files } from '../both-sides.ts'

/** A ledger made from a value, with values on which a rule is silent and values at which it speaks. */
export type Row = [what: string, make: (value: string) => Files, inside: string[], outside: string[]]

/** Ledgers of several entries, by a few words about each. */
export const told = (cases: Readonly<Record<string, Files>>) => (words: string) => cases[words]!
