import { harvestPlan, type Range } from '../../agronomy/crop/harvest-plan.ts'
import type { totalOf } from '../../facts/crop/estimate.ts'
import type { HarvestSettings } from './settings.ts'

/** Figures that have a range, in the order in which totals are written, and whether they are counted, with whole ends. */
const WHOLE = {
  crates: true,
  buckets: true,
  personHours: false,
  people: true,
  juice: false,
  tank: false,
  bottles: true,
  pressLoads: true,
}
const PARTS = Object.keys(WHOLE) as (keyof typeof WHOLE)[]

type Ranges = Partial<Record<keyof typeof WHOLE | 'crop' | 'hours', Range>>

/** What picking needs: the likely figure of each range; null where it has none. */
export type HarvestFigures = ReturnType<typeof figuresOf>

function figuresOf(range: Ranges, tanks: number | null) {
  const likely = (part: keyof Ranges) => range[part]?.likely ?? null
  const measured = (part: keyof Ranges, unit: string) =>
    range[part] ? { value: range[part].likely, unit } : null
  return {
    crop: measured('crop', 'kg'),
    crates: likely('crates'),
    /** Bucketfuls; null where the weight of a full bucket isn't known. */
    buckets: likely('buckets'),
    personHours: likely('personHours'),
    /** People that pick it in one day of the hours set. */
    people: likely('people'),
    /** Hours that the given people need, else those people. */
    hours: likely('hours'),
    juice: measured('juice', 'L'),
    tank: measured('tank', 'L'),
    tanks,
    bottles: likely('bottles'),
    pressLoads: likely('pressLoads'),
    range,
  }
}

/** The figures of a crop that isn't known. */
export const NOTHING = figuresOf({}, null)

/**
 * Tank space beside the juice: 20 to 30 % for the cap of red must (from memory); a tenth for white, common practice.
 */
const HEADSPACE = { red: 0.25, white: 0.1 }

/** What picking a block's crop needs, and the range of each figure. */
export function plannedFigures(of: {
  crop: Range
  rate: Range
  settings: HarvestSettings
  people: number | undefined
  red: boolean
}): HarvestFigures {
  const { crop, rate, settings } = of
  const { crates, buckets, personHours, people, ...rest } = harvestPlan({
    crop,
    rate,
    hours: settings.day.value,
    crate: settings.crate.value,
    bucket: settings.bucket?.value,
    juicePerTonne: settings.juice.value,
    headspace: HEADSPACE[of.red ? 'red' : 'white'],
    bottle: settings.bottle.value,
    pressLoad: settings.press?.value,
  })
  const hours = scaled(personHours, 1 / (of.people ?? Math.max(1, people.likely)))
  const ranges = { crop, crates, buckets, personHours, people, hours, ...rest }
  const known = Object.fromEntries(Object.entries(ranges).filter(([, range]) => range !== null))
  return figuresOf(known, settings.tank ? Math.ceil(rest.tank.likely / settings.tank.value - 1e-9) : null)
}

const scaled = ({ low, likely, high }: Range, by: number): Range => ({
  low: low === null ? null : low * by,
  likely: likely * by,
  high: high === null ? null : high * by,
})

type Planned = HarvestFigures & { block: string }

/** Sums over the blocks; the interval of the crop is that of the sum. Null where a block is unknown. */
export function totalFigures(
  blocks: readonly Planned[],
  crop: ReturnType<typeof totalOf>,
  { people, shared }: { people: number | undefined; shared: boolean },
) {
  const unknown = blocks.filter((block) => block.crop === null).map(({ block }) => block)
  if (unknown.length > 0 || blocks.length === 0 || crop.estimate === null)
    return {
      ...NOTHING,
      missing: unknown.length > 0 ? `the crop of ${unknown.join(', ')}` : 'no block',
      /** Where a block is unknown: the sum over the others, and which are missing from it. */
      known: knownOf(blocks, unknown),
    }
  const joined = joinedRanges(blocks, shared)
  const { personHours, people: needed } = figuresOf(joined, null)
  const workers = people ?? Math.max(1, needed!)
  const range: Ranges = {
    ...joined,
    hours: scaled(joined.personHours!, 1 / workers),
    crop: { low: crop.low, likely: crop.estimate, high: crop.high },
  }
  const tanks = blocks.some((block) => block.tanks === null) ? null : sumOf(blocks, ({ tanks }) => tanks!)
  return { ...figuresOf(range, tanks), hours: personHours! / workers, missing: null, known: null }
}

const sumOf = <T>(list: readonly T[], of: (one: T) => number) =>
  list.reduce((total, one) => total + of(one), 0)

/** The sum over the blocks whose crop is known; null where none is. */
function knownOf(blocks: readonly Planned[], without: string[]) {
  const known = blocks.filter((block) => block.crop !== null)
  if (known.length === 0) return null
  const { crates, buckets, personHours } = figuresOf(joinedRanges(known, false), null)
  const crop = { value: sumOf(known, (block) => block.crop!.value), unit: 'kg' }
  return { without, crop, crates: crates!, buckets, personHours: personHours! }
}

function joinedRanges(blocks: readonly Planned[], shared: boolean): Ranges {
  const joined: Ranges = {}
  for (const part of PARTS) {
    const ranges = blocks.flatMap(({ range }) => range[part] ?? [])
    if (ranges.length === blocks.length) joined[part] = joinedRange(ranges, { shared, whole: WHOLE[part] })
  }
  return joined
}

/**
 * Low and high of a sum: what the blocks may be off adds in quadrature, and plainly where they share the default growth
 * factor. Null where a block has none.
 */
function joinedRange(
  ranges: readonly Range[],
  { shared, whole }: { shared: boolean; whole: boolean },
): Range {
  const likely = sumOf(ranges, (range) => range.likely)
  const side = (of: 'low' | 'high'): number | null => {
    const off = ranges.flatMap((range) => (range[of] === null ? [] : Math.abs(range[of] - range.likely)))
    if (off.length < ranges.length) return null
    const by = shared ? sumOf(off, (each) => each) : Math.hypot(...off)
    const end = of === 'low' ? Math.max(0, likely - by) : likely + by
    if (!whole) return end
    return of === 'low' ? Math.floor(end) : Math.ceil(end - 1e-9)
  }
  return { low: side('low'), likely, high: side('high') }
}
