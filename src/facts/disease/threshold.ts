import type { Ledger } from '../../ledger/read/ledger.ts'
import type { Organ } from '../../records/scouting.ts'
import type { Disease } from '../../records/target.ts'

/** Share at which to act, 0 to 1, and who says so; null where nobody does. */
export interface Threshold {
  share: number | null
  source: string
}

const COMMON = { share: 0.05, source: 'default: common practice, no source' }

/** Incidence of bunches at which fruit is held back, where the grower names none. */
const OF_BUNCHES: Record<Disease, { share: number; source: string }> = {
  powdery: {
    share: 0.03,
    source: 'default: from 3 % mildew can taint wine (Gubler, in a bulletin of the University of California)',
  },
  botrytis: { share: 0.03, source: 'default: many wineries turn fruit away from 3 to 5 % (from memory)' },
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
      if (share !== undefined) return { share: share / 100, source }
    }
  if (organ === 'bunches') return OF_BUNCHES[disease]
  return { share: null, source: `the ledger names none, and there is no default for ${organ}` }
}
