import { secondsOver, speedForVolume } from '../../agronomy/spraying/calibration.ts'
import type { Quantity } from '../../records/quantity.ts'
import { type MixJob, volumeOf } from './job.ts'

/** How fast to go. */
interface Pace {
  /** Null for a spot spray, where only the time on each vine counts. */
  speed: Quantity | null
  /** s; null where the blocks' records don't say, or differ. */
  perRow: number | null
  perVine: number | null
}

/** The pace that brings out the water of the mix by the sprayer's flow; without a flow, the speed as measured. */
export function paceOf(job: MixJob): Pace | null {
  const { flow, width, waterPerHa, rowLength, vineSpacing, spot, treated } = job
  if (spot) {
    if (flow === undefined || !treated?.vines) return null
    return { speed: null, perRow: null, perVine: (volumeOf(job) / treated.vines / flow) * 60 }
  }
  const speed =
    flow !== undefined && width !== undefined && waterPerHa !== null
      ? speedForVolume({ volumePerHa: waterPerHa, flow, width })
      : job.speed
  if (speed === undefined) return null
  const over = (metres: number | undefined) =>
    metres === undefined ? null : secondsOver({ distance: metres, speed })
  return { speed: { value: speed, unit: 'km/h' }, perRow: over(rowLength), perVine: over(vineSpacing) }
}
