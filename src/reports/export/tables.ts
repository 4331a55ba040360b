import { SEASON_TABLES } from './season-tables.ts'
import { STANDING_TABLES } from './standing-tables.ts'
import type { Table } from './table.ts'

/** Every table that a ledger can be written out as, by name: one for each kind of record, and what they add up to. */
export const TABLES: ReadonlyMap<string, Table> = new Map(
  [...STANDING_TABLES, ...SEASON_TABLES].map((one) => [one.name, one]),
)
