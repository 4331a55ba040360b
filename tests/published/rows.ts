import { expect, test } from 'vitest'

/**
 * One check against a source outside this project.
 * `read`: the number was read in the named source. `second-hand`: it was read where another reports it, which the
 * source says. `derived`: worked out, by a path other than ours, from a formula or table of the named source.
 * `memory`: recalled and not verified. `common practice`: a rule of the trade for which there is no source.
 */
export interface PublishedRow {
  id: string
  source: string
  basis: 'read' | 'second-hand' | 'derived' | 'memory' | 'common practice'
  got: () => number | string | boolean | null
  want: number | string | boolean | null
  /** Largest accepted difference of numbers; say beside the row why it is as wide as it is. */
  within?: number
}

const mark = {
  read: '',
  'second-hand': ' (second-hand)',
  derived: ' (worked out here from it)',
  memory: ' (from memory)',
  'common practice': '',
}

/** Runs each row as a test of its own, named by its id, source and basis. */
export function published(rows: PublishedRow[]): void {
  for (const row of rows) {
    test(`${row.id}: ${row.source}${mark[row.basis]}`, () => {
      const got = row.got()
      if (typeof row.want !== 'number') return expect(got).toBe(row.want)
      expect(typeof got).toBe('number')
      expect(Math.abs((got as number) - row.want)).toBeLessThanOrEqual(row.within ?? 1e-9)
    })
  }
}

const PRIVATE = /\b(?:SD?\d+|S-\d+)[a-z]?\b|(?<!Pest )\bnotes\b(?! \d)|references\/|\.md\b|\bsection \d+\b/
/** A year; or that the page bears none or it was not read, that it is a release of a package, or our own sum over plain definitions. */
const YEAR = /\b(?:1[89]|20)\d\d\b|\bundated\b|\byear not read\b|\b\d+\.\d+\.\d+\b|\bworked out here\b/

/** What is wrong with how a row names its source, for a reader who wants to look it up. */
export function faultsOf({ id, source, basis }: Pick<PublishedRow, 'id' | 'source' | 'basis'>): string[] {
  const said = `${id}: ${source}`
  const faults: string[] = []
  if (PRIVATE.test(said)) faults.push(`names notes that nobody else can see: ${said}`)
  if (/\bmemory\b/.test(said) && basis !== 'memory') faults.push(`says memory, marked ${basis}: ${said}`)
  if (basis === 'second-hand' && !/\b(?:read in|as given by|as quoted by|via)\b/.test(source))
    faults.push(`second-hand, without where it was read: ${said}`)
  if (basis === 'common practice' && source !== 'common practice, no source')
    faults.push(`common practice has no source to name: ${said}`)
  if (basis !== 'common practice' && !YEAR.test(source)) faults.push(`names no year: ${said}`)
  return faults
}
