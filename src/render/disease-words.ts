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

/** What ended a protection, as a label says it. */
export const endedBy = (reason: SprayCover['reason']): string =>
  reason?.replace(/^washed off$/, '$& by rain').replace(/^interval$/, '$& over') ?? 'unknown'

export type CoverWord = 'covered' | 'in part' | 'open' | 'unknown' | 'not yet' | 'past need'

/** How a block stands on a day, in a word. */
export function coverWord(
  { date, needed, covered, share }: CoverDay,
  span: DiseaseCover['needed'],
): CoverWord {
  if (covered === true) return 'covered'
  if (!needed) return date < span.from ? 'not yet' : 'past need'
  if (covered === null) return 'unknown'
  return share !== null && share > 0 ? 'in part' : 'open'
}

/** `rows 13 to 19`, or a share in per cent, where only that is written; `spots` for a spot spray of unknown extent. */
export function partText({
  rows,
  share,
}: {
  rows: { from: number; to: number } | null
  share: number | null
}): string {
  if (rows) return rows.from === rows.to ? `row ${rows.from}` : `rows ${rows.from} to ${rows.to}`
  if (share === null) return 'a part'
  if (share === 0) return 'spots'
  return share < 0.01 ? 'less than 1 %' : `${Math.round(share * 100)} %`
}
