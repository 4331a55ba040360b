import type { Basis } from '../facts/figure.ts'
import type { JudgedLedger } from '../facts/judged.ts'
import type { Finding, Level } from '../ledger/read/finding.ts'
import { type Path, type Placed, placeOf } from '../ledger/read/source.ts'

/** Where the limits of many rules come from. */
export const YOUR_LABEL = { source: "your label, as copied into the product's record", basis: 'own' } as const
export const PRACTICE = { source: 'common practice, no source', basis: 'common practice' } as const
export const OWN_RULE = { source: 'own rule', basis: 'own' } as const

/** What a rule finds; its name is the rule's. */
export type Found = Omit<Finding, 'name'>

/** Something that must hold in a sound ledger, and what `explain` prints about it. */
export interface Rule {
  name: string
  what: string
  limits?: string
  source: string
  basis: Basis
  check(input: JudgedLedger): Found[]
}

/** The findings of a rule; equal ones at the same place (a spray on several blocks) count once. */
export function findingsOf({ name, check }: Pick<Rule, 'name' | 'check'>, input: JudgedLedger): Finding[] {
  const seen = new Set<string>()
  return check(input).flatMap((one) => {
    const key = [one.file, one.line, one.column, one.message].join('\n')
    return seen.size < seen.add(key).size ? { ...one, name } : []
  })
}

/** Something found at a value of a record. */
export function findingAt(
  record: Placed<object>,
  path: Path,
  fault: { level?: Level; message: string; help: string },
): Found {
  return { ...placeOf(record.source, path), level: 'warning', ...fault }
}

/** A block by its name, or by its id where it is not recorded. */
export const blockName = ({ ledger }: Pick<JudgedLedger, 'ledger'>, id: string): string =>
  ledger.blocks.get(id)?.name ?? id

/** A product by its name, or by its id where it is not recorded. */
export const productName = ({ ledger }: Pick<JudgedLedger, 'ledger'>, id: string): string =>
  ledger.products.get(id)?.name ?? id

/** The place of a record, for a message about another: `products/sulphur-80.yaml:8`. */
export function mention(record: Placed<object>, path: Path = []): string {
  const place = placeOf(record.source, path)
  return `${place.file}:${place.line}`
}
