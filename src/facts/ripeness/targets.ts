import { STYLE_RANGES, STYLE_RANGES_SOURCE } from '../../agronomy/ripening/style-ranges.ts'
import type { Ledger, Named } from '../../ledger/read/ledger.ts'
import type { Block } from '../../records/kinds/block.ts'
import type { WineStyle } from '../../records/kinds/block-fields.ts'
import type { Range } from '../../records/quantity.ts'

/** A range to aim at, and where it comes from. */
export interface Target {
  low: number
  high: number
  unit: string
  source: string
  /** Who set it: the grower on the block or the variety, or the usual range of its style. */
  basis: 'block' | 'variety' | 'style'
}

/** Styles whose sugar is so far from a still wine's that the variety's target can't be meant for them. */
const OWN_SUGAR: readonly WineStyle[] = ['sparkling', 'dessert']

/**
 * What a block has to reach: its own target, else its style's usual range, else its variety's target, else the usual
 * range of the variety's style; null where none of these is written, since no range applies that nobody asked for.
 * Sugar of a still wine is a rule of thumb, so the variety's target comes before it.
 */
export function targetOf(ledger: Ledger, block: Named<Block>, of: 'brix' | 'ta' | 'ph'): Target | null {
  const variety = ledger.varieties.get(block.variety)
  const style = block.style
  const isOwn = style !== undefined && (of !== 'brix' || OWN_SUGAR.includes(style))
  return (
    written(block.targets?.[of], { basis: 'block', source: `blocks/${block.id}.yaml` }) ??
    (isOwn ? usual(style, of) : null) ??
    written(variety?.targets?.[of], { basis: 'variety', source: `varieties/${block.variety}.yaml` }) ??
    usual(style ?? variety?.style, of)
  )
}

function written(range: Range | undefined, by: Pick<Target, 'basis' | 'source'>): Target | null {
  return range ? { low: range.low, high: range.high, unit: range.unit, ...by } : null
}

function usual(style: WineStyle | undefined, of: 'brix' | 'ta' | 'ph'): Target | null {
  if (style === undefined) return null
  const range = STYLE_RANGES[style][of]
  if (range === null) return null
  const [low, high] = range
  const unit = of === 'ta' ? 'g/L' : ''
  return { low, high, unit, basis: 'style', source: `usual for ${style}: ${STYLE_RANGES_SOURCE}` }
}
