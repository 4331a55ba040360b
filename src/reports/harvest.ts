import { type HarvestPlan, harvestPlan, type Range } from '../agronomy/harvest-plan.ts'
import type { Named } from '../ledger/ledger.ts'
import type { Block } from '../records/block.ts'
import type { IsoDate } from '../records/date.ts'
import type { Quantity } from '../records/quantity.ts'
import { ESTIMATE_CAUTIONS } from './cautions.ts'
import { blockCrop } from './crop/estimate.ts'
import { totalOf } from './crop.ts'
import { type Picked, pickedOf } from './harvest/picked.ts'
import { type HarvestSettings, harvestSettings, type RateSetting, rateFor } from './harvest/settings.ts'
import { makeReport, type Report, type ReportInput } from './report.ts'
import { windowOf } from './window/block-window.ts'

export interface HarvestOptions {
  /** Pickers that there are. */
  people?: number | undefined
  /** Hours of the picking day, in place of the site's. */
  hours?: number | undefined
}

/** What a crop asks for, likely figures first; `range` holds low and high of each. */
export interface HarvestFigures {
  crop: Quantity | null
  crates: number | null
  personHours: number | null
  /** People that pick it in one day of the hours set. */
  people: number | null
  /** Hours that the given people need, else those people. */
  hours: number | null
  juice: Quantity | null
  tank: Quantity | null
  tanks: number | null
  bottles: number | null
  pressLoads: number | null
  range: Partial<
    Record<
      'crop' | 'crates' | 'personHours' | 'people' | 'hours' | 'juice' | 'tank' | 'bottles' | 'pressLoads',
      Range
    >
  >
}

export interface HarvestBlock extends HarvestFigures {
  block: string
  rate: RateSetting
  missing: string | null
  /** Place in the order of picking, from 1. */
  order: number
  likely: IsoDate | null
  legalFrom: IsoDate | null
  picked: Picked | null
}

export interface HarvestData {
  blocks: HarvestBlock[]
  totals: HarvestFigures & { missing: string | null }
  settings: HarvestSettings & { people: number | null }
}

/** What picking each block asks for: crates, people, hours, litres; in which order; and how it went where it is done. */
export function harvest(input: ReportInput, options: HarvestOptions = {}): Report<HarvestData> {
  const site = harvestSettings(input.ledger)
  const settings =
    options.hours === undefined ? site : { ...site, day: { value: options.hours, source: 'as asked' } }
  const made = input.blocks.map((block) => planOf(block, { input, settings, people: options.people }))
  const blocks = inOrder(made.map(({ block }) => block))
  const crops = made.map(({ crop }) => crop)
  const totals = totalFigures(blocks, totalOf(crops), {
    people: options.people,
    shared: crops.some(({ factor }) => factor.basis === 'default'),
  })
  const data = { blocks, totals, settings: { ...settings, people: options.people ?? null } }
  return makeReport('harvest', input, { data, cautions: ESTIMATE_CAUTIONS })
}

type Context = { input: ReportInput; settings: HarvestSettings; people: number | undefined }

function planOf(block: Named<Block>, { input, settings, people }: Context) {
  const { ledger } = input
  const crop = blockCrop(ledger, block, input)
  const rate = rateFor(ledger, block.id, input)
  const { likely, legalFrom } = windowOf(block, input)
  const red = ledger.varieties.get(block.variety)?.colour === 'red'
  const plan =
    crop.estimate === null
      ? null
      : harvestPlan({
          crop: { low: crop.low, likely: crop.estimate, high: crop.high },
          rate: { low: rate.low, likely: rate.value, high: rate.high },
          hours: settings.day.value,
          ...(people === undefined ? {} : { people }),
          crate: settings.crate.value,
          juicePerTonne: settings.juice.value,
          headspace: HEADSPACE[red ? 'red' : 'white'],
          bottle: settings.bottle.value,
          ...(settings.press ? { pressLoad: settings.press.value } : {}),
        })
  const figures = plan
    ? figuresOf(plan, { crop: { low: crop.low, likely: crop.estimate!, high: crop.high }, settings, people })
    : NOTHING
  const picked = pickedOf(ledger, block.id, { ...input, planned: crop.estimate, rate: rate.value })
  return {
    crop,
    block: { block: block.id, ...figures, rate, missing: crop.missing, order: 0, likely, legalFrom, picked },
  }
}

/** Tank space beside the juice: 20 to 30 % for the cap of red must (from memory); a tenth for white, common practice. */
const HEADSPACE = { red: 0.25, white: 0.1 }

const NOTHING: HarvestFigures = {
  ...{ crop: null, crates: null, personHours: null, people: null, hours: null, juice: null },
  ...{ tank: null, tanks: null, bottles: null, pressLoads: null, range: {} },
}

function figuresOf(
  plan: HarvestPlan,
  of: { crop: Range; settings: HarvestSettings; people: number | undefined },
): HarvestFigures {
  const hours = scale(plan.personHours, 1 / (of.people ?? Math.max(1, plan.people.likely)))
  return {
    crop: { value: of.crop.likely, unit: 'kg' },
    crates: plan.crates.likely,
    personHours: plan.personHours.likely,
    people: plan.people.likely,
    hours: hours.likely,
    juice: { value: plan.juice.likely, unit: 'L' },
    tank: { value: plan.tank.likely, unit: 'L' },
    tanks: of.settings.tank ? Math.ceil(plan.tank.likely / of.settings.tank.value - 1e-9) : null,
    bottles: plan.bottles.likely,
    pressLoads: plan.pressLoads?.likely ?? null,
    range: {
      crop: of.crop,
      ...{ crates: plan.crates, personHours: plan.personHours, people: plan.people, hours },
      ...{ juice: plan.juice, tank: plan.tank, bottles: plan.bottles },
      ...(plan.pressLoads ? { pressLoads: plan.pressLoads } : {}),
    },
  }
}

const scale = ({ low, likely, high }: Range, by: number): Range => ({
  low: low === null ? null : low * by,
  likely: likely * by,
  high: high === null ? null : high * by,
})

/** Blocks in the order in which they can be picked: by the later of likely day and legality, unknown ones last. */
function inOrder(blocks: readonly HarvestBlock[]): HarvestBlock[] {
  const turn = ({ likely, legalFrom, picked }: HarvestBlock) => {
    if (picked) return picked.date
    if (likely === null) return '9999'
    return legalFrom !== null && legalFrom > likely ? legalFrom : likely
  }
  return blocks
    .toSorted((a, b) => (turn(a) < turn(b) ? -1 : turn(a) > turn(b) ? 1 : 0))
    .map((block, index) => ({ ...block, order: index + 1 }))
}

/** Sums over the blocks; the interval of the crop is that of the sum. Null where a block is unknown. */
function totalFigures(
  blocks: readonly HarvestBlock[],
  crop: ReturnType<typeof totalOf>,
  { people, shared }: { people: number | undefined; shared: boolean },
): HarvestData['totals'] {
  const unknown = blocks.filter((block) => block.crop === null).map(({ block }) => block)
  if (unknown.length > 0 || blocks.length === 0 || crop.estimate === null)
    return { ...NOTHING, missing: unknown.length > 0 ? `the crop of ${unknown.join(', ')}` : 'no block' }
  const sum = (of: (block: HarvestBlock) => number | null) =>
    blocks.reduce<number | null>((total, block) => {
      const value = of(block)
      return total === null || value === null ? null : total + value
    }, 0)
  const personHours = sum((block) => block.personHours)!
  const needed = sum((block) => block.people)!
  const litres = (value: number | null): Quantity | null => (value === null ? null : { value, unit: 'L' })
  return {
    crop: { value: crop.estimate, unit: 'kg' },
    crates: sum((block) => block.crates),
    personHours,
    people: needed,
    hours: personHours / (people ?? Math.max(1, needed)),
    juice: litres(sum((block) => block.juice?.value ?? null)),
    tank: litres(sum((block) => block.tank?.value ?? null)),
    tanks: sum((block) => block.tanks),
    bottles: sum((block) => block.bottles),
    pressLoads: sum((block) => block.pressLoads),
    range: {
      ...Object.fromEntries(
        JOINED.flatMap((key) => {
          const joined = joinedRange(blocks, { key, shared })
          return joined ? [[key, joined]] : []
        }),
      ),
      crop: { low: crop.low, likely: crop.estimate, high: crop.high },
    },
    missing: null,
  }
}

const JOINED = ['crates', 'personHours', 'people', 'juice', 'tank', 'bottles', 'pressLoads'] as const
const WHOLE: ReadonlySet<string> = new Set(['crates', 'people', 'bottles', 'pressLoads'])

/**
 * Low and high of a sum: what the blocks may be off adds in quadrature, and plainly where they share the default growth
 * factor. Null where a block has none.
 */
function joinedRange(
  blocks: readonly HarvestBlock[],
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
