import type { Quantity } from '../../records/quantity.ts'
import { blockCrop } from '../crop/estimate.ts'
import type { Asked, Gate } from './gate.ts'

interface Figures {
  estimate: Quantity | null
  /** Ends of the 95 % interval. */
  low: Quantity | null
  high: Quantity | null
}

/** Whether the crop is known, so that people, crates and press can be planned. */
export function cropGate(asked: Asked): Gate & Figures {
  const { estimate, low, high, missing, factor } = blockCrop(asked.ledger, asked.block, asked)
  const todo = 'Count bunches on ten vines or more and weigh a few.'
  if (estimate === null)
    return {
      gate: 'crop',
      state: 'unknown',
      detail: `crop unknown: ${missing}`,
      short: 'unknown',
      todo,
      estimate: null,
      low: null,
      high: null,
    }
  const round = (kg: number) => String(Number(kg.toPrecision(2)))
  const range =
    low === null || high === null
      ? `, no interval: ${missing}`
      : ` (${round(low)} to ${round(high)} kg, 95 %)`
  const grown = factor.basis === 'default' ? ', with the default growth factor' : ''
  return {
    gate: 'crop',
    state: 'pass',
    todo: null,
    detail: `about ${round(estimate)} kg${range}${grown}`,
    short: round(estimate),
    estimate: quantity(estimate),
    low: quantity(low),
    high: quantity(high),
  }
}

const quantity = (kg: number | null): Quantity | null => (kg === null ? null : { value: kg, unit: 'kg' })
