import { cropTotal } from '../../agronomy/crop/crop-total.ts'
import type { BlockCrop } from './estimate.ts'

/** The crops of several blocks together, kg; the blocks on the default growth factor share its error. */
export function totalOf(crops: readonly BlockCrop[]): ReturnType<typeof cropTotal> {
  const estimates = crops.flatMap(({ parts }) => (parts.length > 0 ? parts : [null]))
  return cropTotal({ estimates, sharedFactor: crops.some(({ factor }) => factor.basis === 'default') })
}
