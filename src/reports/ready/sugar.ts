import { normalCdf } from '../../agronomy/normal.ts'
import { studentCdf } from '../../agronomy/student.ts'
import { daysBetween, spokenDate } from '../../records/date.ts'
import { type BlockSample, samplesOf } from '../block-samples.ts'
import { type Target, targetOf } from '../targets.ts'
import { type Asked, type Gate, OLDEST } from './gate.ts'

/**
 * Standard error of a pooled sample of about 100 berries, Brix: the rule of five lots for ±0.5 (Fiola, University of
 * Maryland Extension) implies 0.57 between lots.
 */
const POOLED_ERROR = 0.57

/** Whether the last sample's mean is at the low end of the target, and how sure that is. */
export function sugarGate(asked: Asked): Gate & { probability: number | null } {
  const { ledger, block, asOf } = asked
  const target = targetOf(ledger, block, 'brix')
  const gate = (rest: Omit<Gate, 'gate'>, probability: number | null = null) => ({
    ...{ gate: 'sugar' as const, ...rest },
    probability,
  })
  const samples = samplesOf(ledger, { ...asked, block: block.id }).filter(
    ({ facts }) => facts.brix !== null || facts.why !== null,
  )
  const sample = samples.at(-1)
  const todo = 'Sample 100 berries from all over the block.'
  if (!target) {
    const missing = `no target in blocks/${block.id}.yaml or varieties/${block.variety}.yaml`
    return gate({
      state: 'unknown',
      detail: missing,
      short: 'no target',
      todo: 'Write `targets: { brix: 20-22 }` into the block.',
    })
  }
  if (!sample) return gate({ state: 'unknown', detail: 'no sample this season', short: 'no sample', todo })
  const day = spokenDate(sample.entry.date)
  const { brix, why } = sample.facts
  if (!brix)
    return gate({
      state: 'unknown',
      detail: `the sample of ${day} gives no Brix: ${why}`,
      short: 'unknown',
      todo,
    })
  const age = daysBetween(sample.entry.date, asOf)
  const short = `${brix.mean.toFixed(1)} of ${target.low}-${target.high}`
  if (age > OLDEST.sample) {
    const detail = `the last sample, ${brix.mean.toFixed(1)} Brix on ${day}, is ${age} days old; one of the last ${OLDEST.sample} days is asked for (common practice, no source)`
    return gate({ state: 'unknown', detail, short: `sample\nof ${day.slice(4)}`, todo })
  }
  const { probability, basis } = chanceAt(sample, target)
  const detail = `${brix.mean.toFixed(1)} Brix on ${day} of ${target.low}-${target.high} (${target.source}); ${sure(probability)} sure that the mean is at ${target.low}, ${basis}`
  if (brix.mean >= target.low) {
    const over = brix.mean > target.high ? '; above the range already' : ''
    return gate({ state: 'pass', detail: `${detail}${over}`, short, todo: null }, probability)
  }
  return gate({ state: 'wait', detail, short, todo: 'Sample again in three or four days.' }, probability)
}

const sure = (share: number) =>
  share < 0.01 ? 'less than 1 %' : share > 0.99 ? 'more than 99 %' : `${Math.round(share * 100)} %`

/** Probability that the block's mean is at the low end of the target, given the sample. */
function chanceAt({ facts }: BlockSample, target: Target): { probability: number; basis: string } {
  const { n, mean, sd } = facts.brix!
  if (n >= 3 && sd !== null && sd > 0) {
    const probability = studentCdf((mean - target.low) / (sd / Math.sqrt(n)), n - 1)
    return { probability, basis: `from ${n} readings` }
  }
  return {
    probability: normalCdf((mean - target.low) / POOLED_ERROR),
    basis: `taking ±${POOLED_ERROR} as the error of a pooled sample (after Fiola, University of Maryland)`,
  }
}
