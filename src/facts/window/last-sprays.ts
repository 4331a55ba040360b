import { daysBetween, type IsoDate } from '../../records/date.ts'
import type { ReportInput } from '../report.ts'
import { daysBeforeHarvest } from '../spraying/label.ts'
import { earliestPick } from '../spraying/spray-end.ts'

/** Most days until the window opens for which products are compared with it. Our own choice. */
const SPRAYS_AHEAD = 60

/** Ids of products, by whether a spray today completes its pre-harvest interval before the window opens. */
export interface LastSprays {
  inTime: string[]
  tooLate: string[]
  /** Those whose pre-harvest interval the ledger doesn't give. */
  unknown: string[]
}

/**
 * Which recorded products may still be sprayed on the day of the report so that a block can be picked when its
 * window opens. Assumes a spray that ends in the evening, for the cautious date.
 * @returns null where the window has opened, is too far off, or is unknown
 */
export function lastSprays(
  earliest: IsoDate | null | undefined,
  { ledger, asOf }: Pick<ReportInput, 'ledger' | 'asOf'>,
): LastSprays | null {
  if (!earliest || earliest < asOf || daysBetween(asOf, earliest) > SPRAYS_AHEAD) return null
  const found: LastSprays = { inTime: [], tooLate: [], unknown: [] }
  for (const product of ledger.products.values()) {
    const days = daysBeforeHarvest(product, undefined)
    const kept = days !== null && earliestPick({ date: asOf, time: undefined }, days).cautious <= earliest
    found[days === null ? 'unknown' : kept ? 'inTime' : 'tooLate'].push(product.id)
  }
  return found
}

/** `too late for A; still in time: B; not known: C`. @param names product names by id */
export function lastSpraysText(
  { inTime, tooLate, unknown }: LastSprays,
  names: ReadonlyMap<string, string>,
): string {
  const all = (ids: readonly string[]) => ids.map((id) => names.get(id) ?? id).join(', ')
  return [
    ...(tooLate.length > 0 ? [`too late for ${all(tooLate)}`] : []),
    inTime.length > 0 ? `still in time: ${all(inTime)}` : 'no recorded product is in time',
    ...(unknown.length > 0 ? [`not known: ${all(unknown)}`] : []),
  ].join('; ')
}
