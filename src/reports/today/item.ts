import type { Danger, DangerJudge } from '../../facts/danger/danger.ts'
import { type Remedy, remediesFor } from '../../facts/danger/remedies.ts'
import { groupedBy } from '../../facts/judged.ts'
import type { BlockCovers } from '../../facts/protection/course.ts'
import type { ReportInput } from '../../facts/report.ts'
import { listed } from '../../facts/sentences.ts'
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

/** An item as its part makes it: what it is not about is left out. */
export type TodayDraft = Omit<TodayItem, 'disease' | 'reasons' | 'also'> &
  Partial<Pick<TodayItem, 'disease' | 'reasons' | 'also'>> & {
    /** The class of the danger that it is about. */
    level?: Danger['level'] | undefined
    /** What its `mix` command puts into the tank, where it has one. */
    tank?: { products: readonly string[]; diseases: readonly Disease[] } | undefined
  }

/** Forecast by day number: daily means and highest temperatures, °C, and rain, mm. */
export interface TodayForecast {
  means: ReadonlyMap<number, number>
  highest: ReadonlyMap<number, number>
  rain: ReadonlyMap<number, number>
}

/** What the items are made from; windows are calculated once. */
export interface TodayFrom extends ReportInput {
  forecast: TodayForecast | null
  /** Whether a day gone by was asked for. */
  isPast: boolean
  windows: ReadonlyMap<string, BlockWindow>
  nameOf: (block: string) => string
  /** The judgement of danger, made once. */
  judge: DangerJudge
  /** Protection of the blocks not yet picked, calculated once. */
  covers: readonly BlockCovers[]
}

/** Whether the sugar target may be reached by now: then the choice is to pick or wait, not to spray. */
export function harvestNear({ windows, asOf }: Pick<TodayFrom, 'windows' | 'asOf'>, block: string): boolean {
  const earliest = windows.get(block)?.earliest
  return earliest != null && earliest <= asOf
}

/** `--block a --block b`, or nothing where it is all of them. */
export function blockOptions({ ledger }: Pick<ReportInput, 'ledger'>, blocks: readonly string[]): string {
  if (blocks.length === ledger.blocks.size && blocks.length > 1) return ' --block all'
  return blocks.map((block) => ` --block ${block}`).join('')
}

/** `Top Terrace`, `Top Terrace and Kiln Bank`, `all blocks`. */
export function namesOf({ ledger, nameOf }: TodayFrom, blocks: readonly string[]): string {
  if (blocks.length === ledger.blocks.size && blocks.length > 1) return 'all blocks'
  return listed(blocks.map(nameOf))
}

/** At most two names, for one line; more are counted. */
export function fewNamesOf(from: TodayFrom, blocks: readonly string[]): string {
  const all = blocks.length === from.ledger.blocks.size
  return all || blocks.length < 3 ? namesOf(from, blocks) : `${blocks.length} blocks`
}

/** Blocks about which the same is said, together, in the order in which they come. */
export function grouped<T>(
  entries: readonly { block: string; key: string; about: T }[],
): { blocks: string[]; about: T }[] {
  return [...groupedBy(entries, ({ key }) => key).values()].map((all) => ({
    blocks: all.map(({ block }) => block),
    about: all[0]!.about,
  }))
}

/** What is in the shed against a disease of a block today, and whether it may be used. */
export const remediesToday = (from: TodayFrom, block: string, disease: Disease): Remedy[] =>
  remediesFor(from, {
    block,
    disease,
    date: from.asOf,
    picking: from.windows.get(block)?.earliest ?? null,
    stage: from.judge.growth(block).stageOn(dayOf(from.asOf))?.stage ?? null,
    heatAhead: from.forecast?.highest,
  })

/** What an item is about; the first of its blocks stands for all. */
export const on = <What extends TodayItem['what']>(what: What, blocks: readonly string[]) => ({
  what,
  block: blocks[0] ?? null,
  blocks: [...blocks],
})

/** The blocks not yet picked, or picked only in part by the last pick. */
export function hanging({ blocks, ledger, season, asOf }: ReportInput): TodayFrom['blocks'] {
  const own = ledger.picks.filter((pick) => pick.season === season && pick.date <= asOf)
  return blocks.filter(({ id }) => {
    const last = own.findLast((pick) => pick.block === id)
    return !last || (last.rest ?? 0) > 0
  })
}
