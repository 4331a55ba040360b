import { productNames } from '../../facts/names.ts'
import type { ReportInput } from '../../facts/report.ts'
import { legalFrom, spraysOf } from '../../facts/spraying/legal-from.ts'
import { overLabelSentence } from '../../facts/spraying/over-label.ts'
import { enteringStops } from '../../facts/spraying/re-entry.ts'
import { addDays, type IsoDate } from '../../records/date.ts'
import { spokenDate } from '../../records/spoken-date.ts'
import { isToPick, type Picked } from './picked.ts'
import type { HarvestFigures } from './plan.ts'

/** Buckets and clippers beside one for each picker. Common practice, no source. */
const BUCKETS_EACH = 2
const PICKERS_PER_SPARE = 5

/** A block, or a part of it, in the hours in which it is picked; minutes after midnight. */
interface DayStep {
  block: string
  date: IsoDate
  from: number
  to: number
}

export type HarvestDay = NonNullable<ReturnType<typeof dayOf>>

interface DayOptions {
  date?: IsoDate | undefined
  start?: number | undefined
  people?: number | undefined
  /** Hours that a picking day has. */
  hours: number
}

type Planned = HarvestFigures & {
  block: string
  missing: string | null
  ripe: IsoDate | null
  rot: string | null
  picked: Picked | null
}

const START = 8 * 60

/**
 * The day of picking by the hour, blocks in their order; breaks aren't counted, and what a day can't hold goes on the next.
 * Null where no day can be named: none was typed, and no block is likely ripe on a known day.
 */
export function dayOf(blocks: readonly Planned[], input: ReportInput, options: DayOptions) {
  const open = blocks.filter(isToPick)
  const ripe = open.flatMap(({ ripe }) => ripe ?? []).sort()[0]
  const earliest = ripe !== undefined && ripe < input.asOf ? input.asOf : ripe
  const date = options.date ?? earliest
  if (date === undefined || open.length === 0) return null
  const judged = open.map((block) => ({
    block,
    why: whyNot(block, { input, date, isTyped: options.date !== undefined }),
  }))
  const going = judged.flatMap(({ block, why }) => (why === null ? [block] : []))
  const needed = going.reduce((sum, block) => sum + (block.people ?? 0), 0)
  const people = options.people ?? Math.max(1, needed)
  const steps = stepsOf(going, { date, start: options.start ?? START, people, hours: options.hours })
  return {
    date,
    /** Minutes after midnight. */
    start: options.start ?? START,
    people,
    /** Where start and people come from: typed, or our own proposal. */
    basis: {
      start: options.start === undefined ? 'default' : 'as asked',
      people: options.people === undefined ? 'default' : 'as asked',
    },
    steps,
    /** Blocks that aren't picked on the day, and why. */
    left: judged.flatMap(({ block, why }) => (why === null ? [] : [{ block: block.block, why }])),
    /** Blocks that are picked, since the day was asked for, before they are likely ripe; null where no likely day is known. */
    early: going.flatMap(({ block, ripe, rot }) => {
      const last = steps.findLast((step) => step.block === block)
      return rot === null && last && (ripe === null || ripe > last.date) ? [{ block, likely: ripe }] : []
    }),
    /** To have ready: two buckets a picker, clippers for each and one spare for five. */
    buckets: people * BUCKETS_EACH,
    clippers: people + Math.ceil(people / PICKERS_PER_SPARE),
  }
}

/** Why a block isn't picked on a day; null where nothing recorded forbids it. */
function whyNot(
  { block, crop, missing, ripe, rot }: Planned,
  { input, date, isTyped }: { input: ReportInput; date: IsoDate; isTyped: boolean },
): string | null {
  const legal = legalFrom(input.ledger, spraysOf(input.ledger, { ...input, block }))
  if (legal.overLabel.length > 0) return overLabelSentence(legal.overLabel).replace(/\.$/, '')
  if (legal.unknown.length > 0)
    return `the pre-harvest interval (PHI) of ${productNames(input.ledger, legal.unknown)} is unknown`
  if (legal.date !== null && legal.date > date)
    return `not before ${spokenDate(legal.date)}, pre-harvest interval (PHI)`
  const stop = enteringStops({ ...input, asOf: date }, input.ledger.blocks.get(block)!)[0]
  if (stop !== undefined) return stop.replace(/\.$/, '')
  if (crop === null) return `the crop is unknown: ${missing}`
  if (!isTyped && rot === null && (ripe === null || ripe > date))
    return ripe === null ? 'no likely day known' : `likely ripe ${spokenDate(ripe)}`
  return null
}

function stepsOf(
  going: readonly Planned[],
  { date, start, people, hours }: { date: IsoDate; start: number; people: number; hours: number },
): DayStep[] {
  const steps: DayStep[] = []
  let [day, spent] = [0, 0]
  for (const { block, personHours } of going) {
    let left = (personHours! / people) * 60
    while (left > 0.5) {
      if (hours * 60 - spent < 0.5) [day, spent] = [day + 1, 0]
      const taken = Math.min(left, hours * 60 - spent)
      const from = start + spent
      steps.push({ block, date: addDays(date, day), from: Math.round(from), to: Math.round(from + taken) })
      spent += taken
      left -= taken
    }
  }
  return steps
}
