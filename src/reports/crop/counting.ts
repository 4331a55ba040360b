import { relativeHalfWidth, type SampleSummary } from '../../agronomy/crop/crop-estimate.ts'
import { vinesToCount } from '../../agronomy/crop/vines-to-count.ts'
import type { BlockCrop } from '../../facts/crop/estimate.ts'

/**
 * What more counting and weighing brings a block's crop within the wanted error: by vines alone, by bunches alone, and
 * by both, each bringing half of the variance that the growth factor leaves. Of a block counted in parts every part is
 * brought to the same relative error, so that their sum has the one wanted.
 */
export function countingFor(crop: BlockCrop, error: number) {
  const none = (why: string) => ({
    toCount: { error, needed: null, more: null, why },
    toWeigh: { error, needed: null, more: null, why },
    together: { vines: null, bunches: null, why },
    parts: crop.counts.map(() => ({ moreVines: null, moreBunches: null })),
  })
  if (crop.estimate === null || crop.parts.length === 0) return none(crop.missing ?? 'the crop is unknown')
  if (crop.low === null) return none('count at least two vines and weigh at least two bunches first')
  if (crop.estimate <= 0) return none('there is no crop')
  const left = leftFor(crop, error)
  if (left === null) return none('the growth factor alone exceeds the wanted error')
  const parts = crop.counts.map(({ vines, bunches, weight }) =>
    partFor({ vines: vines ?? crop.vines, bunches: bunches!, weight: weight!, error: left }),
  )
  const both = parts.map(({ both }) => both)
  const noCount = 'bunch weight and growth factor alone exceed the wanted error'
  const noWeighing = 'the vines counted and the growth factor alone exceed the wanted error'
  return {
    toCount: {
      error,
      ...summed(
        parts.map(({ vines }) => vines),
        noCount,
      ),
    },
    toWeigh: {
      error,
      ...summed(
        parts.map(({ bunches }) => bunches),
        noWeighing,
      ),
    },
    together: {
      vines: both.reduce((sum, { moreVines }) => sum + moreVines, 0),
      bunches: both.reduce((sum, { moreBunches }) => sum + moreBunches, 0),
      why: null,
    },
    parts: both,
  }
}

/** Relative error that each part's counting and weighing may have; null where the growth factor leaves none. */
function leftFor({ parts, estimate }: BlockCrop, error: number): number | null {
  const factor = parts.reduce((sum, { halfWidth }) => sum + halfWidth!.factor, 0)
  const left = (error * estimate!) ** 2 - factor ** 2
  if (left <= 0) return null
  return Math.sqrt(left / parts.reduce((sum, part) => sum + part.estimate ** 2, 0))
}

type Needed = ReturnType<typeof vinesToCount>

function partFor(of: { vines: number; bunches: SampleSummary; weight: SampleSummary; error: number }) {
  const { vines, bunches, weight, error } = of
  const half = error / Math.SQRT2
  const count = (wanted: number, otherError: number): Needed =>
    vinesToCount({ cv: cvOf(bunches), error: wanted, vines, otherError, counted: bunches.n })
  const weigh = (wanted: number, otherError: number): Needed =>
    vinesToCount({ cv: cvOf(weight), error: wanted, otherError, counted: weight.n })
  return {
    vines: count(error, relativeHalfWidth(weight)!),
    bunches: weigh(error, relativeHalfWidth(bunches, vines)!),
    both: { moreVines: count(half, 0)!.more, moreBunches: weigh(half, 0)!.more },
  }
}

const cvOf = ({ sd, mean }: SampleSummary): number => (mean > 0 ? (sd ?? 0) / mean : 0)

/** What all parts need, in all and more; nulls with the reason where no number is enough. */
function summed(parts: readonly Needed[], why: string) {
  const known = parts.filter((part) => part !== null)
  if (known.length < parts.length) return { needed: null, more: null, why }
  return {
    needed: known.reduce((sum, part) => sum + part.needed, 0),
    more: known.reduce((sum, part) => sum + part.more, 0),
    why: null,
  }
}
