import type { HarvestPlan, Range } from '../../agronomy/crop/harvest-plan.ts'
import type { Quantity } from '../../records/quantity.ts'
import type { HarvestSettings } from './settings.ts'

/** What picking a crop needs, likely figures first; `range` holds low and high of each. */
export interface HarvestFigures {
  crop: Quantity | null
  crates: number | null
  /** Bucketfuls; null where the weight of a full bucket isn't known. */
  buckets: number | null
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
      | ('crop' | 'crates' | 'buckets' | 'personHours' | 'people' | 'hours')
      | ('juice' | 'tank' | 'bottles' | 'pressLoads'),
      Range
    >
  >
}

/**
 * Tank space beside the juice: 20 to 30 % for the cap of red must (from memory); a tenth for white, common practice.
 */
export const HEADSPACE = { red: 0.25, white: 0.1 }

export const NOTHING: HarvestFigures = {
  crop: null,
  crates: null,
  buckets: null,
  personHours: null,
  people: null,
  hours: null,
  juice: null,
  tank: null,
  tanks: null,
  bottles: null,
  pressLoads: null,
  range: {},
}

/** The likely figures of a plan, and the range of each. */
export function figuresOf(
  plan: HarvestPlan,
  of: { crop: Range; settings: HarvestSettings; people: number | undefined },
): HarvestFigures {
  const hours = scale(plan.personHours, 1 / (of.people ?? Math.max(1, plan.people.likely)))
  return {
    crop: { value: of.crop.likely, unit: 'kg' },
    crates: plan.crates.likely,
    buckets: plan.buckets?.likely ?? null,
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
      crates: plan.crates,
      ...(plan.buckets ? { buckets: plan.buckets } : {}),
      personHours: plan.personHours,
      people: plan.people,
      hours,
      juice: plan.juice,
      tank: plan.tank,
      bottles: plan.bottles,
      ...(plan.pressLoads ? { pressLoads: plan.pressLoads } : {}),
    },
  }
}

export const scale = ({ low, likely, high }: Range, by: number): Range => ({
  low: low === null ? null : low * by,
  likely: likely * by,
  high: high === null ? null : high * by,
})
