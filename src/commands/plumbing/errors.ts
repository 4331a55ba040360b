import type { ReportInput } from '../../facts/report.ts'
import type { Finding } from '../../ledger/read/finding.ts'
import type { Ledger } from '../../ledger/read/ledger.ts'
import type { IsoDate } from '../../records/date.ts'
import { UserError } from '../../records/user-error.ts'

/** A usage error: exit status 2, with what to type instead. */
export class UsageError extends UserError {}

/** The error for a name that fits several records of a kind, or none. @param help what to write instead, where it fits none. */
export function notOne(
  kind: 'block' | 'product' | 'sprayer',
  word: string,
  { several, all, help = '' }: { several: readonly WithId[]; all: readonly WithId[]; help?: string },
): UsageError {
  const ids = (some: readonly WithId[]) => some.map(({ id }) => id).join(', ')
  return several.length > 1
    ? new UsageError(`\`${word}\` fits ${several.length} ${kind}s`, `write one of ${ids(several)}`)
    : new UsageError(`there is no ${kind} \`${word}\``, `${kind}s here: ${ids(all) || 'none'}${help}`)
}

type WithId = { id: string }

/** Records that a report needs are broken: they are listed, and the exit status is 1. */
export class BrokenLedger extends Error {
  readonly ledger: Ledger
  readonly asOf: IsoDate

  constructor(
    { ledger, asOf }: Pick<ReportInput, 'ledger' | 'asOf'>,
    readonly findings: Finding[] = ledger.findings,
  ) {
    super('records that the report needs are broken')
    this.ledger = ledger
    this.asOf = asOf
  }
}
