import { normalCdf } from '../../agronomy/statistics/normal.ts'
import { studentCdf } from '../../agronomy/statistics/student.ts'
import { daysBetween } from '../../records/date.ts'
import { spokenDate } from '../../records/spoken-date.ts'
import { biasError, type PressBias } from '../ripeness/press-bias.ts'
import { type SampleDay, sampleDays, sampleDayText } from '../ripeness/sample-day.ts'
import { samplesOf } from '../ripeness/samples.ts'
import { type Target, targetOf } from '../ripeness/targets.ts'
import { type Asked, answersOf, type Gate, OLDEST } from './gate.ts'

const { pass, wait, unknown } = answersOf('sugar')

/**
 * Standard error of a pooled sample of about 100 berries, Brix: the rule of five lots for ±0.5 (Fiola, University of
 * Maryland Extension) implies 0.57 between lots.
 */
const POOLED_ERROR = 0.57

/**
 * Whether the mean of the last sampling day, corrected to the press if asked, has reached the low end of the target,
 * and how sure that is.
 */
export function sugarGate(asked: Asked, pressed: PressBias | null): Gate {
  const { ledger, block, asOf } = asked
  const target = targetOf(ledger, block, 'brix')
  const open = (...answer: Parameters<typeof unknown>) => ({ ...unknown(...answer), probability: null })
  const samples = samplesOf(ledger, { ...asked, block: block.id }).filter(
    ({ facts }) => facts.brix !== null || facts.why !== null,
  )
  const sample = samples.at(-1)
  const todo = 'Sample 100 berries from all over the block.'
  if (!target)
    return open(
      `no target in blocks/${block.id}.yaml or varieties/${block.variety}.yaml`,
      'no target',
      'Write `targets: { brix: 20-22 }` into the block.',
    )
  if (!sample)
    return open(
      'no sample this season',
      'no sample',
      'Take a first sample of about 20 berries from all over the block. Take 100 before you decide.',
    )
  const day = spokenDate(sample.entry.date)
  const sampled = sampleDays(samples, 'brix').at(-1)
  if (sampled?.date !== sample.entry.date)
    return open(`the sample of ${day} gives no Brix: ${sample.facts.why}`, 'unknown', todo)
  const age = daysBetween(sample.entry.date, asOf)
  const bias = pressed?.mean ?? 0
  const mean = sampled.mean + bias
  const short = `${mean.toFixed(1)} of ${target.low}-${target.high}`
  if (age > OLDEST.sample) {
    const detail = `the last sample, ${sampled.mean.toFixed(1)} Brix on ${day}, is ${age} days old; one in the last ${OLDEST.sample} days is needed (common practice, no source)`
    return open(detail, `sample\nof ${day.slice(4)}`, todo)
  }
  const { probability, basis } = chanceAt(sampled, { target, pressed })
  const read =
    bias === 0
      ? ''
      : ` (read ${sampled.mean.toFixed(1)}, ${bias > 0 ? '+' : '-'}${Math.abs(bias).toFixed(1)} for what the press reads)`
  const detail = `${mean.toFixed(1)} Brix${read} on ${day}${sampleDayText(sampled, 1)} of ${target.low}-${target.high} (${target.source}); ${sure(probability)} sure that the mean is ${target.low} or more, ${basis}`
  if (mean >= target.low) {
    const over = mean > target.high ? '; already above the range' : ''
    const odds = probability < EVEN_ODDS ? '; about even odds: sample again' : ''
    return { ...pass(`${detail}${odds}${over}`, short), probability }
  }
  return { ...wait(detail, short, 'Sample again in three or four days.'), probability }
}

/** Below this chance, the block is about as likely under the target as over it. Our own choice. */
const EVEN_ODDS = 0.65

const sure = (share: number) =>
  share < 0.01 ? 'less than 1 %' : share > 0.99 ? 'more than 99 %' : `${Math.round(share * 100)} %`

/**
 * Probability that the block's mean has reached the low end of the target, given the samples of a day and the
 * field-to-press difference.
 */
function chanceAt(
  day: SampleDay,
  { target, pressed }: { target: Target; pressed: PressBias | null },
): { probability: number; basis: string } {
  const { error, freedom, basis } = errorOf(day)
  const off = (day.mean + (pressed?.mean ?? 0) - target.low) / Math.hypot(error, biasError(pressed))
  return { probability: freedom === null ? normalCdf(off) : studentCdf(off, freedom), basis }
}

/**
 * Standard error of a day's mean: by the errors of its samples, or by how far they lie apart where that is more. With
 * its degrees of freedom for Student's t; null for the normal distribution.
 */
function errorOf(day: SampleDay): { error: number; freedom: number | null; basis: string } {
  const samples = day.samples.map(({ sample: { facts }, share }) => ({ ...facts.brix!, share }))
  const errors = samples.map(({ n, sd }) => (n >= 3 && sd !== null && sd > 0 ? sd / Math.sqrt(n) : null))
  const own = Math.hypot(...samples.map(({ share }, at) => share * (errors[at] ?? POOLED_ERROR)))
  const freedom = samples.length - 1
  const off = Math.hypot(...samples.map((sample) => sample.share * (sample.mean - day.mean)))
  const apart = freedom === 0 ? 0 : off * Math.sqrt(samples.length / freedom)
  if (apart > own)
    return { error: apart, freedom, basis: `by how far the ${samples.length} samples lie apart` }
  if (!errors.includes(null)) {
    const n = samples.reduce((sum, sample) => sum + sample.n, 0)
    return { error: own, freedom: n - samples.length, basis: `from ${n} readings` }
  }
  const basis = `taking ±${POOLED_ERROR} as the error of a pooled sample (after Fiola, University of Maryland)`
  return { error: own, freedom: null, basis }
}
