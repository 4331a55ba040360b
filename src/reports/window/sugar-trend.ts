import type { SugarSample } from '../../agronomy/sampling-days.ts'
import { sugarTrend as fitTrend, type SugarTrend } from '../../agronomy/sugar-trend.ts'
import { dayOf } from '../../records/date.ts'
import { type BlockSample, brixByDay } from '../block-samples.ts'
import { heatAhead, sumUpTo } from './heat-ahead.ts'
import { type MethodDays, type Question, unable } from './method.ts'
import type { Temperatures } from './temperatures.ts'

/** Days after the last sample for which the samples are asked. */
export const HORIZON = 45

/**
 * Level asked of the trend for an interval that holds nine days of ten: the trend allows for more noise and slowing than
 * most samples show, and at 0.9 held the true day of 95 to 97 in 100 simulated seasons, in intervals a month wide. Set
 * by tests/reports/window-simulation.test.ts; our choice, no source.
 */
const ASKED_LEVEL = 0.84

/** The samples carried on, and whether they say that the target is further off than can be told. */
export interface TrendAnswer extends MethodDays {
  tooFar: boolean
  trend: SugarTrend | null
}

/** When the samples reach the target: regression on days, or on heat where that foretells the samples better. */
export function sugarTrend(
  question: Question,
  { samples, temperatures }: { samples: readonly BlockSample[]; temperatures: Temperatures },
): TrendAnswer {
  const days = brixByDay(samples)
  const refused = samples.filter(({ facts }) => facts.why !== null).length
  const left = refused === 0 ? '' : `; ${refused} of the samples could not be used`
  if (days.length === 0)
    return { ...unable('sugar-trend', `no sample with sugar yet${left}`), tooFar: false, trend: null }
  const points: SugarSample[] = days.map(({ date, brix }) => {
    const heatSum = sumUpTo(temperatures, dayOf(date))
    return { day: dayOf(date), brix, ...(heatSum === null ? {} : { heatSum }) }
  })
  const ahead = heatAhead(temperatures, dayOf(question.asOf))
  const options = { target: question.target, level: ASKED_LEVEL, horizon: HORIZON }
  const warm = ahead ? fitTrend(points, { ...options, dayAtHeatSum: ahead }) : null
  const unforeseen =
    warm !== null && warm.basis === 'heat-sum' && warm.likely !== null && warm.latest === null
  const trend = warm === null || unforeseen || warm.reason !== null ? fitTrend(points, options) : warm
  return {
    method: 'sugar-trend',
    ...rounded(trend),
    why: `${explain(trend, { question, days })}${left}`,
    tooFar: trend.likely === null && trend.chance !== null && trend.chance < 0.5,
    trend,
  }
}

function rounded({
  earliest,
  likely,
  latest,
}: SugarTrend): Pick<MethodDays, 'earliest' | 'likely' | 'latest'> {
  if (earliest === null || likely === null || latest === null)
    return { earliest: null, likely: null, latest: null }
  return { earliest: Math.floor(earliest), likely: Math.round(likely), latest: Math.ceil(latest) }
}

function explain(
  trend: SugarTrend,
  { question, days }: { question: Question; days: readonly { date: string; brix: number }[] },
): string {
  const last = days.at(-1)!
  if (trend.likely === null) {
    const at =
      last.brix >= question.target ? `; the last sample, ${last.brix.toFixed(1)} Brix, is at the target` : ''
    return `${trend.reason ?? 'not enough to tell'}${at}`
  }
  const rate = `+${(trend.perDay ?? 0).toFixed(2)} Brix a day from ${last.brix.toFixed(1)} Brix on ${last.date}`
  const by =
    trend.basis === 'heat-sum'
      ? 'set against heat, which foretells these samples better than days'
      : 'set against days'
  const chance =
    trend.chance !== null && trend.chance < 0.95
      ? `; ${Math.round(trend.chance * 100)} % sure that it gets there within ${HORIZON} days`
      : ''
  return `${rate}, over ${trend.used} sampling days, ${by}; slowing is allowed for${chance}`
}
