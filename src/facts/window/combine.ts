import { type CombinedWindow, combineWindows } from '../../agronomy/ripening/combine-windows.ts'
import type { MethodDays } from './method.ts'
import type { TrendAnswer } from './sugar-trend.ts'

/** Steps of the target, in Brix, at which the combination is looked at so that it never falls back. */
const STEP = 0.5
/** How far below the last sample the steps begin. */
const BELOW = 1

export interface Combined
  extends Pick<CombinedWindow, 'earliest' | 'likely' | 'latest' | 'weights' | 'disagree'> {
  reason: string | null
}

/** Answers of all methods for one target. */
export type Ask = (target: number) => readonly MethodDays[]

/**
 * One window of all methods for a target. The days after veraison know nothing of the target, and weigh the more the
 * less the others know; so that a higher target never comes earlier, the combination is held at its latest over the
 * lower ones, in steps of half a degree, straight between them.
 */
export function combined(
  ask: Ask,
  { target, lastBrix }: { target: number; lastBrix: number | null },
): Combined {
  const asked = ask(target)
  const at = combineOnce(asked)
  const alone = asked.filter(({ likely }) => likely !== null).length < 2
  if (at.likely === null || alone) return at
  const from = Math.floor((lastBrix ?? target) - BELOW)
  const low = Math.floor(target / STEP) * STEP
  const steps: number[] = []
  for (let step = Math.min(from, low); step < low; step += STEP) steps.push(step)
  const held = steps.map((step) => combineOnce(ask(step)))
  if (low === target) return holdBack(at, held)
  const below = holdBack(combineOnce(ask(low)), held)
  const above = holdBack(combineOnce(ask(low + STEP)), [...held, below])
  const share = (target - low) / STEP
  const mix = (key: 'earliest' | 'likely' | 'latest') =>
    below[key] === null || above[key] === null || at[key] === null
      ? at[key]
      : Math.round(below[key] + share * (above[key] - below[key]))
  return { ...at, earliest: mix('earliest'), likely: mix('likely'), latest: mix('latest') }
}

function holdBack(at: Combined, lower: readonly Combined[]): Combined {
  const most = (key: 'earliest' | 'likely' | 'latest') => {
    const own = at[key]
    if (own === null) return null
    return Math.max(own, ...lower.flatMap((one) => one[key] ?? []))
  }
  return { ...at, earliest: most('earliest'), likely: most('likely'), latest: most('latest') }
}

function combineOnce(methods: readonly MethodDays[]): Combined {
  const trend = methods.find(({ method }) => method === 'sugar-trend') as TrendAnswer | undefined
  if (trend?.tooFar) {
    const none = { earliest: null, likely: null, latest: null, disagree: false }
    const weights = methods.map(({ method }) => ({ method, weight: 0 }))
    return {
      ...none,
      weights,
      reason: 'by the samples the target is too far off to name a day, whatever the calendar says',
    }
  }
  const { earliest, likely, latest, weights, disagree, reason } = combineWindows(methods)
  return { earliest, likely, latest, weights, disagree, reason }
}
