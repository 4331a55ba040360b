import type { Book } from '../facts/book.ts'
import type { Finding } from '../ledger/read/finding.ts'
import type { Ledger } from '../ledger/read/ledger.ts'
import type { FileText, Placed } from '../ledger/read/source.ts'
import { hashOfTexts } from '../ledger/read/text-hash.ts'
import { SEASON_KINDS, STANDING_KINDS } from '../records/kinds.ts'
import type { Rule } from './rule.ts'

/**
 * Runs a rule, or says what it found when all that it then looked at was as it is now. What a rule looks at is
 * noted while it runs, kind of record by kind, so that no rule need say it; a rule that looks at anything else is
 * run each time.
 */
export class Recall {
  private readonly hashes = new Map<string, string | null>()

  constructor(private readonly book: Book) {}

  findings(rule: Rule): Finding[] {
    const kept = this.book.ledger.reader.findings
    if (!kept) return rule.check(this.book)
    const known = kept.of(rule.name).find(({ looked, hash }) => this.hashOf(looked) === hash)
    if (known) return known.findings
    const looked = new Set<string>()
    const findings = rule.check(watched(this.book, looked))
    const hash = this.hashOf([...looked])
    if (hash !== null) kept.keep(rule.name, { looked: [...looked], hash, findings })
    return findings
  }

  /** Of everything that stands in some parts of the book; null where that can't be told of one. */
  private hashOf(looked: readonly string[]): string | null {
    const hashes = looked.map((part) => this.hashOfPart(part))
    return hashes.every((hash) => hash !== null) ? hashOfTexts(hashes) : null
  }

  private hashOfPart(part: string): string | null {
    const known = this.hashes.get(part)
    if (known !== undefined) return known
    const said = PARTS.has(part) ? saidIn(this.book, part) : null
    const hash = said && hashOfTexts(said)
    this.hashes.set(part, hash)
    return hash
  }
}

const PARTS = new Set<string>(['asOf', 'judged', 'seasons', 'vineyard', ...STANDING_KINDS, ...SEASON_KINDS])

/** The same book; which parts of it are looked at is noted. */
function watched({ ledger, asOf, seasons }: Book, looked: Set<string>): Book {
  return {
    ledger: new Proxy(ledger, {
      get(of, part) {
        looked.add(String(part))
        return of[part as keyof Ledger]
      },
    }),
    get asOf() {
      looked.add('asOf')
      return asOf
    },
    get seasons() {
      looked.add('judged')
      return seasons
    },
  }
}

/** What a part of the book rests on: the files that its records were read from, each with its name; null for records of no file. */
function saidIn({ ledger, asOf, seasons }: Book, part: string): string[] | null {
  if (part === 'asOf') return [asOf]
  if (part === 'judged') return [...seasons].map(String)
  if (part === 'seasons') return ledger.seasons.map(String)
  const records = part === 'vineyard' ? [ledger.vineyard] : ledger[part as 'blocks' | 'sprays'].values()
  const files = new Set<FileText>()
  for (const record of records as Iterable<Placed<object>>) files.add(record.source.at)
  const texts = [...files].flatMap(({ file, text }) => [file, text])
  return texts.includes('') ? null : texts
}
