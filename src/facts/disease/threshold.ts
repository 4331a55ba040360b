import type { Ledger } from '../../ledger/read/ledger.ts'
import type { Disease } from '../../records/disease.ts'
import type { Organ } from '../../records/kinds/scouting.ts'

/** Share at which to act, 0 to 1, and its source; null where there is none. */
export interface Threshold {
  share: number | null
  /** A share of the units looked at (incidence), or their mean affected surface (severity). */
  of: 'incidence' | 'severity'
  source: string
}

const COMMON: Threshold = { share: 0.05, of: 'incidence', source: 'common practice, no source' }

/** Default limits on bunches, where the grower sets none: for botrytis a mean severity, else incidence. */
const OF_BUNCHES: Record<Disease, Threshold> = {
  powdery: {
    share: 0.03,
    of: 'incidence',
    source: 'Gubler, in a bulletin of the University of California: from 3 %, mildew can taint wine',
  },
  botrytis: {
    share: 0.03,
    of: 'severity',
    source: 'Aust. J. Grape Wine Res. 2024, 6630039: usual limit of wineries, as mean severity',
  },
  downy: COMMON,
  'black-rot': COMMON,
  phomopsis: COMMON,
}

/**
 * The threshold for a disease on an organ in a block: the block's, else its variety's, else the vineyard's; in each,
 * one for the organ comes before one for the disease alone; else, for bunches only, the default with its source.
 */
export function thresholdOf(
  ledger: Ledger,
  { block, disease, organ }: { block: string; disease: Disease; organ: Organ },
): Threshold {
  const own = ledger.blocks.get(block)
  const variety = own?.variety ?? ''
  const written: [source: string, shares: Readonly<Record<string, number | undefined>> | undefined][] = [
    [`blocks/${block}.yaml`, own?.thresholds],
    [`varieties/${variety}.yaml`, ledger.varieties.get(variety)?.thresholds],
    ['vineyard.yaml', ledger.vineyard.thresholds],
  ]
  for (const [source, shares = {}] of written)
    for (const key of [`${disease}-${organ}`, disease]) {
      const share = Object.hasOwn(shares, key) ? shares[key] : undefined
      if (share !== undefined) return { share: share / 100, of: 'incidence', source }
    }
  if (organ === 'bunches') return OF_BUNCHES[disease]
  return {
    share: null,
    of: 'incidence',
    source: `the ledger names none, and there is no default for ${organ}`,
  }
}

/**
 * The value to compare with a threshold: the share found, or its severity; null where severity decides and wasn't
 * scored.
 */
export function valueAgainst(
  { of }: Threshold,
  { incidence, severity }: { incidence: number; severity: number | null },
): number | null {
  if (of === 'incidence' || incidence === 0) return incidence
  // Severity can't be above incidence; the round's own finding reports that.
  return severity !== null && severity <= incidence ? severity : null
}
