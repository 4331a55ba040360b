import type { Named } from '../../ledger/read/ledger.ts'
import type { Block } from '../../records/block.ts'
import type { IsoDate } from '../../records/date.ts'
import type { ReportInput } from '../report.ts'
import { biasError, pressBias } from '../ripeness/press-bias.ts'
import { brixByDay, samplesOf } from '../ripeness/samples.ts'
import { targetOf } from '../ripeness/targets.ts'
import { legalFrom, spraysOf } from '../spraying/legal-from.ts'
import { combined } from './combine.ts'
import { conflictsOf } from './conflicts.ts'
import { daysAfterVeraison } from './days-after-veraison.ts'
import { heatSum } from './heat-sum.ts'
import { inDates, type MethodDates } from './method.ts'
import { sugarTrend } from './sugar-trend.ts'
import { type DayMeans, temperaturesOf } from './temperatures.ts'

export interface WindowOptions {
  /** Brix to reach instead of the low end of the block's target range. */
  target?: number | undefined
  /** Daily means foretold, °C, by day number. */
  forecast?: DayMeans | undefined
  /** Adds to the samples what the press has read above the field in past picks. */
  asPressed?: boolean | undefined
}

export interface BlockWindow {
  block: string
  /** Brix; null where neither the option, the block nor the variety names one. */
  target: number | null
  targetSource: string | null
  methods: (MethodDates & { weight: number })[]
  /** Base-0 heat sum of the season so far, and the one that the target needs, °C-days. */
  heat: { sum: number | null; needed: number | null }
  earliest: IsoDate | null
  likely: IsoDate | null
  latest: IsoDate | null
  /** Why there is no window, or none with an interval. */
  why: string | null
  /** From when the days before harvest allow picking, by the cautious reading; null where no spray names any. */
  legalFrom: IsoDate | null
  /** The same, counting the day of spraying as day 0. */
  legalFromCalendar: IsoDate | null
  conflicts: string[]
  /** Mean Brix of the last sampling day. */
  lastSample: { date: IsoDate; brix: number } | null
  picked: IsoDate | null
  /** Brix added to the samples for what the press has read above the field; null where not asked for. */
  pressBias: { brix: number | null; picks: number; why: string | null } | null
}

/** The window of one block, from what was known on the day that it is looked at. */
export function windowOf(
  block: Named<Block>,
  input: Omit<ReportInput, 'blocks'>,
  options: WindowOptions = {},
): BlockWindow {
  const { ledger, season, asOf } = input
  const named = targetOf(ledger, block, 'brix')
  const target = options.target ?? named?.low ?? null
  const legal = legalFrom(ledger, spraysOf(ledger, { block: block.id, season, asOf }))
  const samples = samplesOf(ledger, { block: block.id, season, asOf })
  const last = brixByDay(samples).at(-1)
  const lastSample = last ? { date: last.date, brix: last.brix } : null
  const pressed = options.asPressed ? pressBias(ledger, asOf) : null
  const bias = pressed?.mean ?? 0
  const picked = ledger.picks.find(
    (pick) => pick.block === block.id && pick.season === season && pick.date <= asOf,
  )
  const base = {
    block: block.id,
    target,
    targetSource: options.target === undefined ? (named?.source ?? null) : 'as asked',
    legalFrom: legal.date,
    legalFromCalendar: legal.calendar,
    lastSample,
    picked: picked?.date ?? null,
    pressBias:
      pressed === null ? null : { brix: pressed.mean, picks: pressed.picks.length, why: pressed.why },
  }
  if (target === null) {
    const why = `no target: write \`targets: { brix: 20-22 }\` in blocks/${block.id}.yaml, or ask with --target brix=20`
    const none = { methods: [], heat: { sum: null, needed: null }, conflicts: [] }
    return { ...base, ...none, earliest: null, likely: null, latest: null, why }
  }
  const temperatures = temperaturesOf(ledger, { season, asOf, forecast: options.forecast })
  const question = { block: block.id, season, asOf }
  const trend = sugarTrend(question, { samples, temperatures, bias, biasError: biasError(pressed) })
  const heat = heatSum(ledger, question, temperatures)
  const veraison = daysAfterVeraison(ledger, {
    ...{ ...question, target: named?.low ?? target },
    asked: options.target,
  })
  const ask = (brix: number) => [trend(brix), heat(brix), veraison] as const
  const methods = ask(target)
  const lastBrix = lastSample === null ? null : lastSample.brix + bias
  const all = combined(ask, { target, lastBrix })
  const { earliest, likely, latest } = inDates(all)
  return {
    ...base,
    methods: methods.map(({ method, earliest, likely, latest, why }, index) => ({
      ...inDates({ method, earliest, likely, latest, why }),
      weight: all.weights[index]?.weight ?? 0,
    })),
    heat: { sum: methods[1].sum, needed: methods[1].needed },
    ...{ earliest, likely, latest },
    why: all.reason,
    conflicts: conflictsOf({ methods, combined: all, legal, trend: methods[0], lastBrix, target, asOf }),
  }
}
