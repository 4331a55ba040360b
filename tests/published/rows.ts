import { expect, test } from 'vitest'

/**
 * One check against a source outside this project.
 * `read`: the number was read in the named source. `derived`: computed, by a path other than ours, from a
 * formula or table of the named source. `memory`: recalled and not verified; the test says so in its name.
 */
export interface PublishedRow {
  id: string
  source: string
  basis: 'read' | 'derived' | 'memory'
  got: () => number | string | boolean | null
  want: number | string | boolean | null
  /** Largest accepted difference of numbers; say beside the row why it is as wide as it is. */
  within?: number
}

const mark = { read: '', derived: ' (derived)', memory: ' (from memory)' }

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
