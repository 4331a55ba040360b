import type { Ledger } from '../../ledger/read/ledger.ts'
import type { Organ } from '../../records/scouting.ts'
import type { Disease } from '../../records/target.ts'

/** Share at which to act, 0 to 1, and who says so; null where nobody does. */
export interface Threshold {
  share: number | null
  /** What it is a share of: of the units looked at, or of their surface on the mean (severity). */
  of: 'incidence' | 'severity'
  source: string
}

const COMMON: Threshold = { share: 0.05, of: 'incidence', source: 'default: common practice, no source' }

/** What of the bunches holds fruit back, where the grower names nothing: for botrytis a mean severity, else incidence. */
const OF_BUNCHES: Record<Disease, Threshold> = {
  powdery: {
    share: 0.03,
    of: 'incidence',
    source: 'default: from 3 % mildew can taint wine (Gubler, in a bulletin of the University of California)',
  },
  botrytis: {
    share: 0.03,
    of: 'severity',
    source: 'usual winery limit, mean severity: Aust. J. Grape Wine Res. 2024, 6630039',
  },
  downy: COMMON,
  'black-rot': COMMON,
  phomopsis: COMMON,
}

/**
 * The threshold of a disease on an organ in a block: that of the block, else of its variety, else of the vineyard,
 * in each for the organ before the disease alone; else, for bunches only, the default with its source.
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

/** What is held against a threshold: the share found, or its severity; null where severity decides and wasn't scored. */
export function valueAgainst(
  { of }: Threshold,
  { incidence, severity }: { incidence: number; severity: number | null },
): number | null {
  if (of === 'incidence' || incidence === 0) return incidence
  // A severity above incidence can't be; the round says so.
  return severity !== null && severity <= incidence ? severity : null
}
