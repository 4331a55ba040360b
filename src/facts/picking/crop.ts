import type { Quantity } from '../../records/quantity.ts'
import { hangingCrop } from '../crop/estimate.ts'
import { type Asked, answersOf, type Gate } from './gate.ts'

const { notAsked, unknown } = answersOf('crop')

/** Whether the crop is known, so that people, crates and press can be planned. */
export function cropGate(asked: Asked): Gate {
  const { estimate, low, high, missing, factor, share } = hangingCrop(asked.ledger, asked.block, asked)
  if (estimate === null) return { ...notKnown(asked, missing), estimate: null, low: null, high: null }
  const round = (kg: number) => String(Number(kg.toPrecision(2)))
  const range =
    low === null || high === null
      ? `, no interval: ${missing}`
      : ` (${round(low)} to ${round(high)} kg, 95 %)`
  const grown = factor.basis === 'default' ? ', with the default growth factor' : ''
  const rest = share < 1 ? `, the ${Math.round(100 * share)} % that still hangs` : ''
  return {
    gate: 'crop',
    state: 'pass',
    todo: null,
    detail: `about ${round(estimate)} kg${range}${grown}${rest}`,
    short: round(estimate),
    estimate: quantity(estimate),
    low: quantity(low),
    high: quantity(high),
  }
}

/** `not-asked` where the crop was never counted here and no yield is set; else `unknown`. */
function notKnown({ ledger, block }: Asked, missing: string | null): Gate {
  const isAsked =
    ledger.crop.some((entry) => entry.block === block.id) ||
    (block.targets?.yield ?? ledger.varieties.get(block.variety)?.targets?.yield)
  if (!isAsked)
    return notAsked('not asked: bunches were never counted here, so people and crates are not planned', '-')
  const todo = 'Count bunches on ten vines or more and weigh a few.'
  return unknown(missing ?? 'no crop known', 'unknown', todo)
}

const quantity = (kg: number | null): Quantity | null => (kg === null ? null : { value: kg, unit: 'kg' })
