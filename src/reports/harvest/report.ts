import { hangingCrop, totalOf } from '../../facts/crop/estimate.ts'
import { pickAdvice, saysNow } from '../../facts/picking/rot.ts'
import { CAUTION, makeReport, type ReportInput } from '../../facts/report.ts'
import { legalFrom as legalOf, spraysOf } from '../../facts/spraying/legal-from.ts'
import { windowOf } from '../../facts/window/block-window.ts'
import { laterText, ripeDay } from '../../facts/window/sentences.ts'
import type { Named } from '../../ledger/read/ledger.ts'
import type { IsoDate } from '../../records/date.ts'
import type { Block } from '../../records/kinds/block.ts'
import { spokenDate } from '../../records/spoken-date.ts'
import { dayOf } from './day.ts'
import { isToPick, pickedOf } from './picked.ts'
import { NOTHING, plannedFigures, totalFigures } from './plan.ts'
import { type HarvestSettings, harvestSettings, rateFor } from './settings.ts'

interface HarvestOptions {
  /** Number of pickers. */
  people?: number | undefined
  /** Hours of the picking day, instead of the site's. */
  hours?: number | undefined
  /** kg in a crate, in a bucket, and picked by a person in an hour, instead of the site's and of past picks. */
  crate?: number | undefined
  bucket?: number | undefined
  rate?: number | undefined
  /** Day of picking, and when it begins in minutes after midnight. */
  date?: IsoDate | undefined
  start?: number | undefined
}

export type HarvestBlock = ReturnType<typeof planOf>['block']

export type HarvestData = ReturnType<typeof harvest>['data']

/** What picking each block needs (crates, people, hours, litres), the order, and the result where it is picked. */
export function harvest(input: ReportInput, options: HarvestOptions = {}) {
  const settings = harvestSettings(input.ledger, options)
  const made = input.blocks.map((block) => planOf(block, { ...options, input, settings }))
  const blocks = inOrder(made.map(({ block }) => block))
  const crops = made.map(({ crop }) => crop)
  const totals = totalFigures(blocks, totalOf(crops), {
    people: options.people,
    shared: crops.some(({ factor }) => factor.basis === 'default'),
  })
  const data = {
    blocks,
    totals,
    /** The day by the hour; null where no day can be named. */
    day: dayOf(blocks, input, { ...options, hours: settings.day.value }),
    settings: { ...settings, people: options.people ?? null },
  }
  return makeReport('harvest', input, { data, cautions: [CAUTION.clearance, CAUTION.estimate] })
}

function planOf(
  block: Named<Block>,
  of: Pick<HarvestOptions, 'people' | 'rate'> & { input: ReportInput; settings: HarvestSettings },
) {
  const { input, settings, people, rate: typed } = of
  const { ledger } = input
  const crop = hangingCrop(ledger, block, input)
  const rate =
    typed === undefined
      ? rateFor(ledger, block.id, input)
      : { value: typed, low: null, high: null, source: 'as asked' }
  const window = windowOf(block, input)
  const { likely, legalFrom, overLabel } = window
  const later = laterText(window)
  const figures =
    crop.estimate === null
      ? NOTHING
      : plannedFigures({
          crop: { low: crop.low, likely: crop.estimate, high: crop.high },
          rate: { low: rate.low, likely: rate.value, high: rate.high },
          settings,
          people,
          red: ledger.varieties.get(block.variety)?.colour === 'red',
        })
  // The checks before picking are those of `ready`; here only the days that sprays allow.
  const { unknown } = legalOf(ledger, spraysOf(ledger, { ...input, block: block.id }))
  const isLawful = !overLabel && unknown.length === 0 && (legalFrom === null || legalFrom <= input.asOf)
  const advice = pickAdvice({ ...input, block }, { gates: [], rain: null, likely })
  const picked = pickedOf(ledger, block.id, { ...input, planned: crop.estimate, rate: rate.value })
  return {
    crop,
    block: {
      block: block.id,
      ...figures,
      rate,
      missing: crop.missing,
      /** Place in the order of picking, from 1. */
      order: 0,
      /** Likely day of sugar. */
      likely,
      /** Likely day of sugar, and of acid and pH where they are known to come into their ranges later. */
      ripe: ripeDay(window),
      /** The days of sugar and of what comes later, in words; null where nothing is known to. */
      later: later && likely && `sugar about ${spokenDate(likely)}; ${later}`,
      legalFrom,
      /** Products sprayed whose pre-harvest interval is not recorded: read the label first. */
      unknown,
      /** Uses over the label that nobody cleared, in words: no day of picking is known; else null. */
      overLabel,
      /** Why rot argues for picking now, where picking is lawful; null where it doesn't. */
      rot: isLawful && isToPick({ picked }) && advice && saysNow(advice) ? advice.reasons[0]! : null,
      /** What was picked so far; its `rest` is the share that hangs, and then the figures above are those of the rest. */
      picked,
    },
  }
}

/**
 * Blocks in the order in which they can be picked: where rot argues for it first, then by the later of likely ripeness
 * and legality, unknown ones last, and those that nobody may pick yet because a spray was over the label or has no
 * interval recorded.
 */
function inOrder(blocks: readonly HarvestBlock[]): HarvestBlock[] {
  const turn = ({ ripe, legalFrom, overLabel, unknown, rot, picked }: HarvestBlock) => {
    if (picked && !isToPick({ picked })) return picked.date
    if (rot !== null) return '0'
    if (overLabel || unknown.length > 0) return '99999'
    if (ripe === null) return '9999'
    return legalFrom !== null && legalFrom > ripe ? legalFrom : ripe
  }
  return blocks
    .toSorted((a, b) => (turn(a) < turn(b) ? -1 : turn(a) > turn(b) ? 1 : 0))
    .map((block, index) => ({ ...block, order: index + 1 }))
}
