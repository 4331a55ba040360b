import type { Ledger } from '../ledger/ledger.ts'
import type { Organ } from '../records/scouting.ts'
import type { Disease } from '../records/target.ts'

/** Share at which to act, 0 to 1, and who says so; null where nothing and nobody does. */
export interface Threshold {
  share: number | null
  source: string
}

/** Incidence of bunches from which powdery mildew can taint wine: the only threshold with a source that was read. */
const PUBLISHED: Partial<Record<Disease, { share: number; source: string }>> = {
  powdery: { share: 0.03, source: 'Gubler, in a UCCE Central Sierra bulletin: 3 % can taint wine' },
  botrytis: { share: 0.03, source: 'many wineries refuse from 3-5 % (from memory)' },
}

/**
 * The threshold of a disease on an organ in a block: that of the block, else of its variety, else of the site, for
 * the organ where one says so, else the default with its source.
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
  const published = organ === 'bunches' ? PUBLISHED[disease] : undefined
  return published ?? { share: null, source: 'none is written in vineyard.yaml, and none has a source' }
}
