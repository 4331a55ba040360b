import { type InContainers, notWeighed, weightOf } from '../../records/fields/fruit-weight.ts'
import type { RecordOf, SeasonKind, WeighedPick } from '../../records/kinds.ts'
import { errorAt, type Finding } from './finding.ts'
import type { Ledger } from './ledger.ts'
import { type Placed, placed, placeOf } from './source.ts'

const WEIGHTS = ['weight', 'sorted_out'] as const

/**
 * A record with its weights in kg. Full buckets or crates are converted by the site's own figures,
 * after the cache, so that a newly weighed bucket counts at once. Where the site has no figure, a finding says so.
 */
export function inKilograms<T extends object>(
  kind: SeasonKind,
  record: Placed<T>,
  { vineyard }: Pick<Ledger, 'vineyard'>,
): { record: Placed<T> | null; findings: Finding[] } {
  if (kind !== 'picks') return { record, findings: [] }
  const pick = record as unknown as Placed<RecordOf<'picks'>>
  const counted = WEIGHTS.filter((key) => typeof pick[key] === 'object')
  if (counted.length === 0) return { record, findings: [] }
  const findings: Finding[] = []
  const weighed: Record<string, number> = {}
  for (const key of counted) {
    const written = pick[key] as InContainers
    const kg = weightOf(written, vineyard.harvest)
    if (kg !== null) weighed[key] = kg
    else findings.push(errorAt(placeOf(pick.source, [key]), notWeighed(written, vineyard.units)))
  }
  if (findings.length > 0) return { record: null, findings }
  const made = { ...pick, ...weighed } as WeighedPick
  return { record: placed(made, pick.source) as unknown as Placed<T>, findings }
}
