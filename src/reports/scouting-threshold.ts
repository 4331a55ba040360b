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

/** The threshold of a disease: that of the vineyard, for the organ where it says so, else the default with its source. */
export function thresholdOf(ledger: Ledger, disease: Disease, organ: Organ): Threshold {
  const own: Readonly<Record<string, number | undefined>> = ledger.vineyard.thresholds ?? {}
  for (const key of [`${disease}-${organ}`, `${disease} ${organ}`, disease])
    if (Object.hasOwn(own, key)) return { share: own[key]! / 100, source: 'vineyard.yaml' }
  const published = organ === 'bunches' ? PUBLISHED[disease] : undefined
  return published ?? { share: null, source: 'none is written in vineyard.yaml, and none has a source' }
}
