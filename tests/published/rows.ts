import { expect, test } from 'vitest'
import type { Basis } from '../../src/facts/figure.ts'
import { sourceAndBasis } from '../../src/reports/explain/everything.ts'

/**
 * One check against a source outside this project, marked as `explain` marks a source (`Basis` says what each
 * mark means); our own rule or arithmetic is no check from outside.
 */
export interface PublishedRow {
  id: string
  source: string
  basis: Exclude<Basis, 'own'>
  got: () => number | string | boolean | null
  want: number | string | boolean | null
  /** Largest accepted difference; say beside the row why it is that wide. */
  within?: number
}

/** Runs each row as a test of its own, named by its id, source and basis. */
export function published(rows: PublishedRow[]): void {
  for (const row of rows) {
    test(`${row.id}: ${sourceAndBasis(row)}`, () => {
      const got = row.got()
      if (typeof row.want !== 'number') return expect(got).toBe(row.want)
      expect(typeof got).toBe('number')
      expect(Math.abs((got as number) - row.want)).toBeLessThanOrEqual(row.within ?? 1e-9)
    })
  }
}

const PRIVATE = /\b(?:SD?\d+|S-\d+)[a-z]?\b|(?<!Pest )\bnotes\b(?! \d)|references\/|\.md\b|\bsection \d+\b/
/** A year, or that it isn't known, or a release of a package. */
const YEAR = /\b(?:1[89]|20)\d\d\b|\b(?:year|edition) not known\b|\b\d+\.\d+\.\d+\b/
/** Words that say that another reports the source. */
const REPORTED =
  /\bsecond-hand\b|\bread (?:on|in)\b|\bvia\b|\b(?:as )?(?:re)?(?:given|quoted|printed|reprinted|carried|cited) by\b|\bquoted on\b/
/** The one way to write that a year isn't known. */
const OTHER_WORDS = /\bundated\b|\bnot read\b(?=.*\byear\b)|\byear not read\b|\bsecond hand\b/

/** How weak each basis is. What was worked out from a source that another reports is marked as worked out. */
const WEAKNESS: Readonly<Record<Basis, number>> = {
  read: 0,
  'second-hand': 1,
  derived: 1,
  memory: 2,
  'common practice': 2,
  own: 3,
}

/** The weakest basis that the words of a source name; null where they name none. */
function namedIn(source: string): Basis | null {
  if (source.includes('common practice')) return 'common practice'
  if (/\bmemory\b/.test(source)) return 'memory'
  return REPORTED.test(source) ? 'second-hand' : null
}

/** What is wrong with how a source is named and marked, for a reader who wants to look it up. */
export function faultsOf({ id, source, basis }: { id: string; source: string; basis: Basis }): string[] {
  const said = `${id}: ${source}`
  const faults: string[] = []
  const named = namedIn(said)
  if (PRIVATE.test(said)) faults.push(`names notes that nobody else can see: ${said}`)
  if (OTHER_WORDS.test(said)) faults.push(`not in the words in use (year not known, second-hand): ${said}`)
  if (named !== null && WEAKNESS[basis] < WEAKNESS[named])
    faults.push(`says ${named}, marked ${basis}: ${said}`)
  if (basis === 'second-hand' && !REPORTED.test(source.replace('second-hand', '')))
    faults.push(`second-hand, without where it was read: ${said}`)
  if (basis === 'common practice' && !source.includes('common practice'))
    faults.push(`common practice has no source to name: ${said}`)
  if (basis !== 'common practice' && basis !== 'own' && !YEAR.test(source))
    faults.push(`names no year: ${said}`)
  return faults
}
