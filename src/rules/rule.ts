import type { Basis } from '../facts/figure.ts'
import type { Book } from '../facts/judged.ts'
import type { Finding, Level } from '../ledger/read/finding.ts'
import { type Path, type Placed, placeOf } from '../ledger/read/source.ts'

/** What `explain` says of a rule. */
interface About {
  what: string
  limits?: string
  source: string
  basis: Basis
}

/** What a rule finds; it is called by the name of the rule. */
export type Found = Omit<Finding, 'name'>

/** Something that must hold in a sound ledger. */
export interface Rule {
  name: string
  about: About
  check(book: Book): Found[]
}

/** What a rule finds in the ledger; what is the same of the same place, as of a spray of several blocks, once. */
export function findingsOf({ name, check }: Rule, book: Book): Finding[] {
  const seen = new Set<string>()
  return check(book).flatMap((one) => {
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

/** Where a record stands, for a message about another: `products/sulphur-80.yaml:8`. */
export function mention(record: Placed<object>, path: Path = []): string {
  const place = placeOf(record.source, path)
  return `${place.file}:${place.line}`
}
