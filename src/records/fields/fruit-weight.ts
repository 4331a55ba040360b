import type { NamedFault } from '../fault.ts'
import { readQuantity } from '../quantity.ts'
import { field, quantityText, raise, rangeCheck } from './field.ts'

/** Picking containers; the site gives the weight of a full one (`harvest: { bucket: 9 kg, crate: 12 kg }`). */
type Container = 'bucket' | 'crate'

/** A weight given as a number of full containers. */
export interface InContainers {
  count: number
  container: Container
}

/** The kg of fruit in a full container of each kind, as far as the site says. */
export type FullContainers = { readonly [C in Container]?: number | undefined }

/** The smallest and largest weight of one entry, kg. */
const LEAST = 0.1
const MOST = 10_000_000

/** `12 buckets` or `7.5 crates` as a count; null where the text is something else. */
export function readContainers(text: string): InContainers | null {
  const [, count, word] = /^(\d+(?:\.\d+)?|\.\d+)\s*(bucket|crate)s?$/i.exec(text.trim()) ?? []
  return count === undefined ? null : { count: Number(count), container: word!.toLowerCase() as Container }
}

/** The weight of full containers, kg, rounded to remove floating-point noise; null where the site gives none. */
export function weightOf(
  { count, container }: InContainers,
  full: FullContainers | undefined,
): number | null {
  const one = full?.[container]
  return one === undefined ? null : Number((count * one).toFixed(3))
}

/** The fault of a weight in containers whose own weight isn't recorded. */
export const notWeighed = ({ container }: InContainers, units: 'metric' | 'us' | 'imperial') => {
  const unit = units === 'metric' ? 'kg' : 'lb'
  const like = { bucket: { kg: 9, lb: 20 }, crate: { kg: 12, lb: 26 } }[container][unit]
  return {
    name: `${container}-not-weighed`,
    message: `the weight of a full ${container} is not known`,
    help: `weigh one, and write it into vineyard.yaml under \`harvest\`, like \`${container}: ${like} ${unit}\`; or write the weight in ${unit}`,
  }
}

/** The same fault, adding that full containers are accepted. */
const orInContainers = (fault: NamedFault): NamedFault =>
  fault.name === 'unknown-unit' || fault.name === 'needs-unit'
    ? { ...fault, help: `${fault.help.replace(/\?$/, '')}; or how many were full, like 12 buckets` }
    : fault

/** A weight of fruit in kg, or in full buckets or crates, which become kg once the site is known (`ledger/read`). */
export const fruitWeight = (description: string, example: string, least: 0 | typeof LEAST = LEAST) =>
  field(
    (value, refuse): number | InContainers => {
      const text = quantityText(value, ['kg'], refuse)
      const counted = readContainers(text)
      if (counted) {
        rangeCheck(counted.count, least, MOST, refuse, `${counted.container}s`)
        return counted
      }
      const result = readQuantity(text, ['kg'])
      if (result.fault) return raise(orInContainers(result.fault), refuse)
      rangeCheck(result.range.low, least, MOST, refuse, 'kg')
      return result.range.low
    },
    {
      type: 'string',
      description: `${description} (kept in kg; \`12 buckets\` where \`harvest\` says what one weighs)`,
      examples: [example],
      keeps: ['kg'],
    },
  )
