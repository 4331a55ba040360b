import type { Ledger } from '../../ledger/read/ledger.ts'
import { displayMass } from '../book-units.ts'
import type { Placed } from './order.ts'

/** A block that can be picked now, and the fruit on its vines in kg; null where it was not counted. */
interface Ripe {
  block: string
  crop: number | null
}

/**
 * Whether what can be picked now fits into the press in one day, in the order of picking; a sentence, or null where it
 * fits or only one block waits. Blocks with a date still ahead take no room yet. Common practice, no source.
 */
export function pressRoom(
  { vineyard, blocks }: Pick<Ledger, 'vineyard' | 'blocks'>,
  order: readonly Placed[],
  ripe: readonly Ripe[],
): string | null {
  const waiting = order.flatMap(({ block }) => ripe.find((one) => one.block === block) ?? [])
  if (waiting.length < 2) return null
  const capacity = vineyard.press?.capacity
  if (capacity === undefined)
    return 'The capacity of the press is not recorded: write `press: { capacity: 300 kg }` into vineyard.yaml.'
  const name = (id: string) => blocks.get(id)?.name ?? id
  const say = (kg: number) => displayMass(kg, vineyard.units)
  let sum = 0
  for (const { block, crop } of waiting) {
    if (crop === null)
      return `The press takes ${say(capacity)} a day; what ${name(block)} brings is not known: count bunches.`
    sum += crop
    if (sum > capacity)
      return `The press takes ${say(capacity)} a day: with ${name(block)} it would be about ${say(sum)}. Pick ${block === waiting[0]!.block ? 'it on several days' : 'it on another day'}.`
  }
  return null
}
