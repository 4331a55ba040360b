import { ESTIMATE_CAUTIONS, SPRAY_CAUTIONS } from '../../facts/cautions.ts'
import { makeReport, type Report, type ReportInput } from '../../facts/report.ts'
import { windowOf } from '../../facts/window/block-window.ts'
import { coverItems } from './cover.ts'
import type { TodayFrom, TodayItem, Urgency } from './item.ts'
import { keepOutItems } from './keep-out.ts'
import { lookItems, stagelessItems } from './looks.ts'
import { pressureItems } from './pressure.ts'
import { checkItems, stockItems } from './rest.ts'
import { lastSprayItems, windowItems } from './windows.ts'

export interface TodayData {
  /** Most urgent first. */
  items: TodayItem[]
}

const ORDER: Record<Urgency, number> = { now: 0, soon: 1, plan: 2 }

/** What is due on a day and what holds on it: where not to enter, what to spray, look at, sample, pick and repair. */
export function today(input: ReportInput): Report<TodayData> {
  const { ledger, blocks } = input
  const from: TodayFrom = {
    ...input,
    windows: new Map(blocks.map((block) => [block.id, windowOf(block, input)])),
    nameOf: (block) => ledger.blocks.get(block)?.name ?? block,
  }
  const items = [
    ...keepOutItems(from),
    ...checkItems(from),
    ...coverItems(from),
    ...pressureItems(from),
    ...windowItems(from),
    ...stagelessItems(from),
    ...lookItems(from),
    ...lastSprayItems(from),
    ...stockItems(from),
  ]
  // A stable sort: within one urgency the order above stays, which puts people before vines.
  items.sort((a, b) => ORDER[a.urgency] - ORDER[b.urgency])
  return makeReport('today', input, { data: { items }, cautions: [...SPRAY_CAUTIONS, ...ESTIMATE_CAUTIONS] })
}
