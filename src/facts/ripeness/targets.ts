import type { Ledger, Named } from '../../ledger/read/ledger.ts'
import type { Block } from '../../records/block.ts'
import type { Range } from '../../records/quantity.ts'

/** A range to aim at, and where it comes from. */
export interface Target {
  low: number
  high: number
  unit: string
  source: string
  basis: 'block' | 'variety' | 'default'
}

/**
 * Acid that must is often picked at, for blocks whose records name none. Source: eXtension (whites pH 3.1-3.3,
 * reds 3.3-3.4, 7-9 g/L of acid).
 */
const ACID_DEFAULTS = {
  white: { ph: [3.1, 3.3], ta: [7, 9] },
  red: { ph: [3.3, 3.4], ta: [7, 9] },
} as const

const DEFAULT_SOURCE = 'eXtension, a range for table wine'

/** What the block, else its variety, is to reach; for acid else a published range; null where there is none. */
export function targetOf(ledger: Ledger, block: Named<Block>, of: 'brix' | 'ta' | 'ph'): Target | null {
  const variety = ledger.varieties.get(block.variety)
  const written = (range: Range, basis: 'block' | 'variety'): Target => ({
    low: range.low,
    high: range.high,
    unit: range.unit,
    basis,
    source: basis === 'block' ? `blocks/${block.id}.yaml` : `varieties/${block.variety}.yaml`,
  })
  const own = block.targets?.[of]
  if (own) return written(own, 'block')
  const usual = variety?.targets?.[of]
  if (usual) return written(usual, 'variety')
  if (of === 'brix' || !variety) return null
  const [low, high] = ACID_DEFAULTS[variety.colour === 'red' ? 'red' : 'white'][of]
  return { low, high, unit: of === 'ta' ? 'g/L' : '', source: DEFAULT_SOURCE, basis: 'default' }
}
