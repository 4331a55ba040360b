import type { Book } from '../facts/book.ts'
import type { Basis } from '../facts/figure.ts'
import type { Finding, Level } from '../ledger/read/finding.ts'
import { type Path, type Placed, placeOf } from '../ledger/read/source.ts'

/** What `explain` says of a rule. */
interface About {
  what: string
  limits?: string
  source: string
  basis: Basis
}

/** Something that must hold in a sound ledger. A rule names every finding that it can raise. */
export interface Rule {
  name: string
  about: About
  check(book: Book): Finding[]
}

/** A finding at a value of a record. */
export function findingAt(
  record: Placed<object>,
  path: Path,
  fault: { name: string; level: Level; message: string; help: string },
): Finding {
  return { ...placeOf(record.source, path), ...fault }
}

/** Where a record stands, for a message about another: `products/sulphur-80.yaml:8`. */
export function mention(record: Placed<object>, path: Path = []): string {
  const place = placeOf(record.source, path)
  return `${place.file}:${place.line}`
}
