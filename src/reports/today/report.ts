import { dangerJudge } from '../../facts/danger/danger.ts'
import { CAUTION, makeReport, type Report, type ReportInput } from '../../facts/report.ts'
import { windowOf } from '../../facts/window/block-window.ts'
import { infectionItems, rainItems } from './ahead.ts'
import { withClocks } from './clock.ts'
import { coverItems } from './cover.ts'
import { dangerItems } from './danger.ts'
import { findItems } from './finds.ts'
import { hangingIn, itemOf, type TodayForecast, type TodayFrom, type TodayItem } from './item.ts'
import { keepOutItems } from './keep-out.ts'
import { lookItems, stagelessItems } from './looks.ts'
import { merged, ORDER } from './merged.ts'
import { checkItems, setupItem, stockItems } from './rest.ts'
import { lastSprayItems, windowItems } from './windows.ts'

export interface TodayData {
  /** Most urgent first. */
  items: TodayItem[]
  /** Whether a station's file gives the weather; where none does, one thing is asked at a time. */
  station: boolean
}

interface TodayOptions {
  forecast?: TodayForecast | undefined
  /** Whether a day gone by was asked for, so that entries of later days are no slip. */
  isPast?: boolean
}

/** What is due on a day: where not to enter, what to spray, scout, sample, pick and repair. */
export function today(
  input: ReportInput,
  { forecast, isPast = false }: TodayOptions = {},
): Report<TodayData> {
  const { ledger, blocks } = input
  const judge = dangerJudge(input)
  const from: TodayFrom = {
    ...input,
    forecast: forecast ?? null,
    isPast,
    windows: new Map(
      blocks.map((block) => [block.id, windowOf(block, input, { forecast: forecast?.means })]),
    ),
    judge,
    ...hangingIn(input, judge),
  }
  const { items: finds, untreated, rounds } = findItems(from)
  const covers = [...coverItems(from, untreated), ...infectionItems(from)]
  const drafts = [
    ...finds,
    ...keepOutItems(from),
    ...checkItems(from),
    ...covers,
    ...rainItems(from),
    ...dangerItems(from, finds.length + covers.length > 0),
    ...windowItems(from),
    ...stagelessItems(from),
    ...lookItems(from, rounds),
    ...lastSprayItems(from),
    ...stockItems(from),
  ]
  const first = setupItem(from)
  const items = merged(first ? [first] : withClocks(drafts, from), from).map(itemOf)
  // A stable sort: within one urgency the order above stays, which puts a find and people before all else.
  items.sort((a, b) => ORDER[a.urgency] - ORDER[b.urgency])
  const usual = first ? [] : [CAUTION.clearance, CAUTION.estimate]
  const isMixing = items.some(({ next, also }) =>
    [next, ...also].some((one) => one.startsWith('rowbook mix')),
  )
  return makeReport('today', input, {
    data: { items, station: ledger.stations.has(input.season) },
    cautions: isMixing ? [CAUTION.dose, ...usual] : usual,
  })
}
