import type { DiseaseCover } from '../facts/protection/course.ts'
import type { CoverDay } from '../facts/protection/day.ts'
import type { SprayCover } from '../facts/protection/sprays.ts'
import { safeLine } from './safe.ts'

export interface CoverNames {
  blocks: ReadonlyMap<string, string>
  products: ReadonlyMap<string, string>
}

export const blockName = (id: string, { blocks }: CoverNames) => safeLine(blocks.get(id) ?? id)
export const productName = (id: string, { products }: CoverNames) => safeLine(products.get(id) ?? id)

/** What ended a protection, in a label's words. */
export const endedBy = (reason: SprayCover['reason']): string =>
  reason?.replace(/^washed off$/, '$& by rain').replace(/^interval$/, '$& over') ?? 'unknown'

export type CoverWord = 'covered' | 'in part' | 'open' | 'unknown' | 'not yet' | 'past need'

/** A block's protection on a day, in a word. */
export function coverWord(
  { date, needed, covered, inPart }: CoverDay,
  span: DiseaseCover['needed'],
): CoverWord {
  if (covered === true) return 'covered'
  if (!needed) return date < span.from ? 'not yet' : 'past need'
  if (covered === null) return 'unknown'
  return inPart ? 'in part' : 'open'
}
