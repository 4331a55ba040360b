import type { SugarSample } from '../../agronomy/ripening/sampling-days.ts'
import { sugarTrend as fitTrend, HORIZON, type SugarTrend } from '../../agronomy/ripening/sugar-trend.ts'
import { dayOf } from '../../records/date.ts'
import { type BlockSample, brixByDay } from '../ripeness/samples.ts'
import { heatAhead, sumUpTo } from './heat-ahead.ts'
import { type MethodDays, type Question, unable } from './method.ts'
import type { Temperatures } from './temperatures.ts'

/** The samples carried on, and whether they say that the target is further off than can be told. */
export interface TrendAnswer extends MethodDays {
  tooFar: boolean
  trend: SugarTrend | null
}

/**
 * When the samples reach a target: regression on days, or on heat where that foretells the samples better. Fitted once;
 * the function that is returned answers for one target after another. `bias` is added to every sample, in Brix, and is unsure by `biasError`.
 */
export function sugarTrend(
  question: Omit<Question, 'target'>,
  {
    samples,
    temperatures,
    bias = 0,
    biasError = 0,
  }: { samples: readonly BlockSample[]; temperatures: Temperatures; bias?: number; biasError?: number },
): (target: number) => TrendAnswer {
  const days = brixByDay(samples)
  const refused = samples.filter(({ facts }) => facts.why !== null).length
  const left = refused === 0 ? '' : `; ${refused} of the samples could not be used`
  if (days.length === 0)
    return () => ({ ...unable('sugar-trend', `no sample with sugar yet${left}`), tooFar: false, trend: null })
  const points = days.map(({ date, brix, readings }): SugarSample => {
    const heatSum = sumUpTo(temperatures, dayOf(date))
    return {
      ...{ day: dayOf(date), brix: brix + bias },
      ...(heatSum === null ? {} : { heatSum }),
      ...(readings ? { readings } : {}),
    }
  })
  const ahead = heatAhead(temperatures, dayOf(question.asOf))
  const warm = ahead && fitTrend(points, { dayAtHeatSum: ahead, shiftError: biasError })
  const cold = fitTrend(points, { shiftError: biasError })
  return (target) => {
    const byHeat = warm?.(target)
    const trend = !byHeat || byHeat.reason !== null ? cold(target) : byHeat
    return {
      method: 'sugar-trend',
      ...rounded(trend),
      why: `${explain(trend, { target, days, bias, biasError })}${left}`,
      tooFar: trend.tooFar,
      trend,
    }
  }
}

/** Whole days: the first on whose morning the mean is at the target. */
function rounded({
  earliest,
  likely,
  latest,
}: SugarTrend): Pick<MethodDays, 'earliest' | 'likely' | 'latest'> {
  if (earliest === null || likely === null || latest === null)
    return { earliest: null, likely: null, latest: null }
  return { earliest: Math.ceil(earliest), likely: Math.ceil(likely), latest: Math.ceil(latest) }
}

function explain(
  trend: SugarTrend,
  of: { target: number; days: readonly { date: string; brix: number }[]; bias: number; biasError: number },
): string {
  const { target, days, bias, biasError } = of
  const last = days.at(-1)!
  const pressed =
    bias === 0
      ? ''
      : `, ${bias > 0 ? '+' : '-'}${Math.abs(bias).toFixed(1)} for what the press reads${biasError === 0 ? '' : `, give or take ${biasError.toFixed(1)}`}`
  if (trend.likely === null) {
    const at =
      last.brix + bias >= target
        ? `; the last sample, ${last.brix.toFixed(1)} Brix${pressed}, is at the target`
        : ''
    return `${trend.reason ?? 'not enough to tell'}${at}`
  }
  const rate = `+${(trend.perDay ?? 0).toFixed(2)} Brix a day from ${last.brix.toFixed(1)} Brix on ${last.date}${pressed}`
  const by =
    trend.basis === 'heat-sum'
      ? 'set against heat, which foretells these samples better than days'
      : 'set against days'
  const chance =
    trend.chance !== null && trend.chance < 0.95
      ? `; ${Math.round(trend.chance * 100)} % sure that it gets there within ${HORIZON} days of the last sample, and the dates are for the case that it does`
      : ''
  return `${rate}, over ${trend.used} sampling days, ${by}; slowing is allowed for${chance}`
}
