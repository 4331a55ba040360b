import type { Finding } from '../ledger/read/finding.ts'
import type { Ledger, Named } from '../ledger/read/ledger.ts'
import type { IsoDate } from '../records/date.ts'
import type { Block } from '../records/kinds/block.ts'

/** A report as plain data: what `--json` prints and what every renderer takes. */
export interface Report<Data> {
  rowbook: 1
  report: string
  asOf: IsoDate
  season: number | null
  data: Data
  findings: ReportFinding[]
  cautions: string[]
}

export type ReportFinding = Pick<Finding, 'name' | 'level' | 'message' | 'file' | 'line' | 'column' | 'help'>

/** Input of a report, besides its own options. */
export interface ReportInput {
  ledger: Ledger
  season: number
  asOf: IsoDate
  /** The blocks asked for, or all, in order of file name. */
  blocks: Named<Block>[]
}

/** Puts data into the envelope of the JSON contract. */
export function makeReport<Data>(
  name: string,
  from: { asOf: IsoDate; season: number | null },
  content: { data: Data; findings?: Finding[]; cautions?: string[] },
): Report<Data> {
  return {
    rowbook: 1,
    report: name,
    asOf: from.asOf,
    season: from.season,
    data: content.data,
    findings: (content.findings ?? []).map(bare),
    cautions: content.cautions ?? [],
  }
}

function bare({ name, level, message, file, line, column, help }: Finding): ReportFinding {
  return { name, level, message, file, line, column, help }
}

/**
 * The cautions, by topic. A report names those that belong to it. They appear once a screen, right
 * under its answer, and are included in JSON, CSV and calendars.
 */
export const CAUTION = {
  /** Doses and mixing. */
  dose: 'The label decides. Wear what it names.',
  /** Entering, picking and limits. */
  clearance: 'By what is recorded here; the label and local rules decide.',
  /** Estimates of disease, ripeness, crop and weather. */
  estimate: 'An estimate: look, taste, measure again.',
} as const
