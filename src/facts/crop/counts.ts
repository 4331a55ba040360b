import type { SampleSummary } from '../../agronomy/crop/crop-estimate.ts'
import { meanInterval } from '../../agronomy/statistics/mean.ts'
import type { CropEntry, Ledger } from '../../ledger/read/ledger.ts'
import type { IsoDate } from '../../records/date.ts'

/** What a count of a block, or of a part of it, is based on. */
export interface Counts {
  /** Name of the part; null for the block as a whole. */
  part: string | null
  /** Living vines of the part as written; null for the block as a whole. */
  vines: number | null
  bunches: SampleSummary | null
  /** kg */
  weight: SampleSummary | null
  at: 'lag' | 'harvest'
  counted: IsoDate | null
  weighed: IsoDate | null
}

/**
 * The newest counts and weights of a block in a season up to a day, separately for each part. The weights decide
 * whether bunches still have to grow: weights near harvest replace those of the lag phase. `only` picks one of the two.
 */
export function countsOf(
  ledger: Ledger,
  of: { block: string; season: number; asOf: IsoDate; only?: 'lag' | 'harvest' },
): Counts[] {
  const entries = ledger.crop.filter(
    (entry) =>
      entry.block === of.block &&
      entry.season === of.season &&
      entry.date <= of.asOf &&
      (of.only === undefined || entry.at === of.only),
  )
  const parts = [...new Set(entries.map(partOf))]
  const named = parts.filter((part) => part !== null)
  return (named.length > 0 ? named : parts).map((part) =>
    newest(
      part,
      entries.filter((entry) => partOf(entry) === part),
    ),
  )
}

const partOf = (entry: CropEntry): string | null =>
  entry.part ?? (entry.rows ? `rows ${entry.rows.low}-${entry.rows.high}` : null)

function newest(part: string | null, entries: readonly CropEntry[]): Counts {
  const weighed =
    entries.findLast((entry) => entry.bunch_weight && entry.at === 'harvest') ??
    entries.findLast((entry) => entry.bunch_weight)
  const counted = entries.findLast((entry) => entry.bunches_per_vine)
  const vines = entries.findLast((entry) => entry.vines !== undefined)?.vines ?? null
  return {
    part,
    vines,
    bunches: counted ? summary(counted.bunches_per_vine!) : null,
    weight: weighed ? summary(weighed.bunch_weight!.map((grams) => grams / 1000)) : null,
    at: weighed?.at ?? counted?.at ?? 'lag',
    counted: counted?.date ?? null,
    weighed: weighed?.date ?? null,
  }
}

const summary = (values: readonly number[]): SampleSummary => {
  const { mean, sd, n } = meanInterval(values)
  return { mean, sd, n }
}

/** What is missing from a block's counts for an estimate; null where nothing is. */
export function missingCounts(counts: readonly Counts[]): string | null {
  if (counts.length === 0) return 'no bunches counted and no bunches weighed this season'
  const lacks = counts.flatMap(({ part, vines, bunches, weight }) => [
    ...(bunches ? [] : [`bunches per vine${of(part)}`]),
    ...(weight ? [] : [`bunch weight${of(part)}`]),
    ...(part !== null && vines === null ? [`vines${of(part)}`] : []),
  ])
  return lacks.length === 0 ? null : lacks.join(', ')
}

const of = (part: string | null) => (part === null ? '' : ` of ${part}`)
