import { type Danger, type DangerJudge, isPicked } from '../../facts/danger/danger.ts'
import { enoughFirst } from '../../facts/danger/in-stock.ts'
import { type Remedy, remediesFor } from '../../facts/danger/remedies.ts'
import { groupedBy } from '../../facts/judged.ts'
import { coversOf, type DiseaseCover } from '../../facts/protection/course.ts'
import type { CoverDay } from '../../facts/protection/day.ts'
import type { ReportInput } from '../../facts/report.ts'
import { listed } from '../../facts/sentences.ts'
import { standsOverLabel } from '../../facts/spraying/re-entry.ts'
import type { BlockWindow } from '../../facts/window/block-window.ts'
import { dayOf } from '../../records/date.ts'
import type { Disease } from '../../records/disease.ts'

export type Urgency = 'now' | 'soon' | 'plan'

/** One thing that is due today, with the command for it. */
export interface TodayItem {
  what:
    | 'setup'
    | 'find'
    | 'clock'
    | 'keep-out'
    | 'check'
    | 'cover'
    | 'pressure'
    | 'window'
    | 'last-spray'
    | 'walk'
    | 'sample'
    | 'stage'
    | 'stock'
  /** The block, or the first of several; null where it is about the whole vineyard. */
  block: string | null
  blocks: string[]
  urgency: Urgency
  /** Date or ISO time until which it holds, or by which it is due; null where there is none. */
  until: string | null
  /** The whole of it in a sentence. */
  text: string
  /** The same in fewer words, for one line of a narrow terminal; null where the sentence is short enough. */
  short: string | null
  next: string
  /** Further commands of the same job, each running as printed. */
  also: string[]
  /** The disease it is about; null where it is about none, or several. */
  disease: Disease | null
  /** Reasons, most important first; empty where the sentence says everything. */
  reasons: string[]
}

/** An item as its part makes it: what doesn't apply is left out. */
export type TodayDraft = Pick<TodayItem, 'what' | 'blocks' | 'urgency' | 'text' | 'next'> &
  Partial<Pick<TodayItem, 'until' | 'short' | 'also' | 'disease' | 'reasons'>> & {
    /** The class of the danger that it is about. */
    level?: Danger['level']
    /** What its `mix` command puts into the tank, where it has one. */
    tank?: { products: string[]; diseases: Disease[] } | undefined
  }

/** The item of a draft, with a null or an empty list for what doesn't apply. */
export const itemOf = (draft: TodayDraft): TodayItem => ({
  what: draft.what,
  block: draft.blocks[0] ?? null,
  blocks: draft.blocks,
  urgency: draft.urgency,
  until: draft.until ?? null,
  text: draft.text,
  short: draft.short ?? null,
  next: draft.next,
  also: draft.also ?? [],
  disease: draft.disease ?? null,
  reasons: draft.reasons ?? [],
})

/** Forecast by day number: daily means and highest temperatures, °C, and rain, mm. */
export interface TodayForecast {
  means: ReadonlyMap<number, number>
  highest: ReadonlyMap<number, number>
  rain: ReadonlyMap<number, number>
}

/** What the items are made from, calculated once; `forecast` is null without one. */
export interface TodayFrom extends ReportInput {
  forecast: TodayForecast | null
  /** Whether a day gone by was asked for. */
  isPast: boolean
  judge: DangerJudge
  windows: ReadonlyMap<string, BlockWindow>
  /** The blocks not yet picked, or picked only in part by the last pick. */
  hanging: ReportInput['blocks']
  /** The protection of each of them against each disease, and its state today; undefined outside the growing season. */
  covers: readonly { block: string; cover: DiseaseCover; today: CoverDay | undefined }[]
}

/** The part of `TodayFrom` that is about what still hangs, and its protection. */
export function hangingIn(input: ReportInput, judge: DangerJudge): Pick<TodayFrom, 'hanging' | 'covers'> {
  const hanging = input.blocks.filter(({ id }) => !isPicked(input, id, input.asOf))
  const covers = coversOf({ ...input, blocks: hanging }, { judge }).flatMap(({ block, covers }) =>
    covers.map((cover) => ({ block: block.id, cover, today: cover.on(input.asOf) })),
  )
  return { hanging, covers }
}

/** Whether the sugar target may be reached by now: then the choice is to pick or wait, not to spray. */
export function harvestNear({ windows, asOf }: TodayFrom, block: string): boolean {
  const earliest = windows.get(block)?.earliest
  return earliest != null && earliest <= asOf
}

/** Whether a spray may be advised: harvest isn't near, and no spray over the label is open. */
export const maySpray = (from: TodayFrom, block: string) =>
  !harvestNear(from, block) && !standsOverLabel(from, block)

const isAll = ({ ledger }: TodayFrom, { length }: readonly string[]) =>
  length === ledger.blocks.size && length > 1

/** ` --block a --block b`, or ` --block all`. */
export const blockOptions = (from: TodayFrom, blocks: readonly string[]): string =>
  isAll(from, blocks) ? ' --block all' : blocks.map((block) => ` --block ${block}`).join('')

export const nameOf = ({ ledger }: TodayFrom, block: string): string =>
  ledger.blocks.get(block)?.name ?? block

/** `Top Terrace`, `Top Terrace and Kiln Bank`, `all blocks`. */
export const namesOf = (from: TodayFrom, blocks: readonly string[]): string =>
  isAll(from, blocks) ? 'all blocks' : listed(blocks.map((block) => nameOf(from, block)))

/** At most two names, for one line; more are counted. */
export const fewNamesOf = (from: TodayFrom, blocks: readonly string[]): string =>
  isAll(from, blocks) || blocks.length < 3 ? namesOf(from, blocks) : `${blocks.length} blocks`

/** Blocks about which the same is said, together, in the order in which they come. */
export function grouped<T>(
  entries: readonly { block: string; key: string; about: T }[],
): { blocks: string[]; about: T }[] {
  return [...groupedBy(entries, ({ key }) => key).values()].map((all) => ({
    blocks: all.map(({ block }) => block),
    about: all[0]!.about,
  }))
}

export const blocksOf = (all: readonly { blocks: readonly string[] }[]): string[] => [
  ...new Set(all.flatMap(({ blocks }) => blocks)),
]

/** The disease that all are about; null where they are about several, or none. */
export function diseaseOf(all: readonly { disease?: Disease | null }[]): Disease | null {
  const [first, ...others] = new Set(all.map(({ disease }) => disease ?? null))
  return others.length === 0 ? (first ?? null) : null
}

/** What is in the shed against a disease of a block today, whether it may be used, and whether there is enough. */
export function remediesToday(from: TodayFrom, block: string, disease: Disease): Remedy[] {
  const all = remediesFor(from, {
    block,
    disease,
    date: from.asOf,
    picking: from.windows.get(block)?.earliest ?? null,
    stage: from.judge.growth(block).stageOn(dayOf(from.asOf))?.stage ?? null,
    heatAhead: from.forecast?.highest,
  })
  return enoughFirst(from, all, { blocks: [block], disease })
}
