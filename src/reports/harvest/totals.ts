import type { Range } from '../../agronomy/crop/harvest-plan.ts'
import type { totalOf } from '../../facts/crop/estimate.ts'
import type { Quantity } from '../../records/quantity.ts'
import { type HarvestFigures, NOTHING, scale } from './plan.ts'

export type HarvestTotals = HarvestFigures & {
  missing: string | null
  /** Where a block is unknown: the sum over the others, and which are missing from it. */
  known: {
    without: string[]
    crop: Quantity
    crates: number
    buckets: number | null
    personHours: number
  } | null
}

type Planned = HarvestFigures & { block: string }

/** Sums over the blocks; the interval of the crop is that of the sum. Null where a block is unknown. */
export function totalFigures(
  blocks: readonly Planned[],
  crop: ReturnType<typeof totalOf>,
  { people, shared }: { people: number | undefined; shared: boolean },
): HarvestTotals {
  const unknown = blocks.filter((block) => block.crop === null).map(({ block }) => block)
  if (unknown.length > 0 || blocks.length === 0 || crop.estimate === null)
    return {
      ...NOTHING,
      missing: unknown.length > 0 ? `the crop of ${unknown.join(', ')}` : 'no block',
      known: knownOf(blocks, unknown),
    }
  const sum = (of: (block: Planned) => number | null) =>
    blocks.reduce<number | null>((total, block) => {
      const value = of(block)
      return total === null || value === null ? null : total + value
    }, 0)
  const personHours = sum((block) => block.personHours)!
  const needed = sum((block) => block.people)!
  const range = joinedRanges(blocks, shared)
  const workers = people ?? Math.max(1, needed)
  const litres = (value: number | null): Quantity | null => (value === null ? null : { value, unit: 'L' })
  return {
    crop: { value: crop.estimate, unit: 'kg' },
    crates: sum((block) => block.crates),
    buckets: sum((block) => block.buckets),
    personHours,
    people: needed,
    hours: personHours / workers,
    juice: litres(sum((block) => block.juice?.value ?? null)),
    tank: litres(sum((block) => block.tank?.value ?? null)),
    tanks: sum((block) => block.tanks),
    bottles: sum((block) => block.bottles),
    pressLoads: sum((block) => block.pressLoads),
    range: {
      ...range,
      ...(range.personHours ? { hours: scale(range.personHours, 1 / workers) } : {}),
      crop: { low: crop.low, likely: crop.estimate, high: crop.high },
    },
    missing: null,
    known: null,
  }
}

/** The sum over the blocks whose crop is known; null where none is. */
function knownOf(blocks: readonly Planned[], without: string[]): HarvestTotals['known'] {
  const known = blocks.filter((block) => block.crop !== null)
  if (known.length === 0) return null
  const sum = (of: (block: Planned) => number) => known.reduce((total, block) => total + of(block), 0)
  return {
    without,
    crop: { value: sum((block) => block.crop!.value), unit: 'kg' },
    crates: sum((block) => block.crates!),
    buckets: known.some(({ buckets }) => buckets === null) ? null : sum((block) => block.buckets!),
    personHours: sum((block) => block.personHours!),
  }
}

const JOINED = [
  ...(['crates', 'buckets', 'personHours', 'people'] as const),
  ...(['juice', 'tank', 'bottles', 'pressLoads'] as const),
]
const WHOLE: ReadonlySet<string> = new Set(['crates', 'buckets', 'people', 'bottles', 'pressLoads'])

function joinedRanges(blocks: readonly Planned[], shared: boolean): HarvestFigures['range'] {
  return Object.fromEntries(
    JOINED.flatMap((key) => {
      const joined = joinedRange(blocks, { key, shared })
      return joined ? [[key, joined]] : []
    }),
  )
}

/**
 * Low and high of a sum: what the blocks may be off adds in quadrature, and plainly where they share the default growth
 * factor. Null where a block has none.
 */
function joinedRange(
  blocks: readonly Planned[],
  { key, shared }: { key: (typeof JOINED)[number]; shared: boolean },
): Range | null {
  const ranges = blocks.flatMap(({ range }) => range[key] ?? [])
  if (ranges.length < blocks.length) return null
  const likely = ranges.reduce((sum, range) => sum + range.likely, 0)
  const side = (of: 'low' | 'high'): number | null => {
    const off = ranges.map((range) => (range[of] === null ? null : Math.abs(range[of] - range.likely)))
    if (off.includes(null)) return null
    const known = off.map((each) => each!)
    const whole = shared ? known.reduce((sum, each) => sum + each, 0) : Math.hypot(...known)
    const end = of === 'low' ? Math.max(0, likely - whole) : likely + whole
    if (!WHOLE.has(key)) return end
    return of === 'low' ? Math.floor(end) : Math.ceil(end - 1e-9)
  }
  return { low: side('low'), likely, high: side('high') }
}
