import { type Measured, READINGS } from '../weather/columns.ts'

/** A unit that is not a multiple of ours: the unit after scaling, and how to scale. */
interface Scale {
  unit: string
  scale: (value: number) => number
}

/** The worth of one count, such as `0.2 mm` for each tip of a rain gauge. */
const EACH = /^(\d+(?:\.\d+)?) ?([a-zA-Z]+)$/

/**
 * How to scale figures in an unusual unit; null where the unit is one of `READINGS`, or unknown.
 * @param step minutes from one row to the next
 */
export function scaleOf(as: Measured, unit: string, step: number | null): Scale | null {
  if (as === 'wind' && unit === 'Bft') return { unit: 'm/s', scale: beaufort }
  if (as === 'wetness' && (unit === '%' || unit === 'share') && step !== null) {
    const whole = unit === '%' ? 100 : 1
    return {
      unit: 'min',
      scale: (value) => (value > whole ? Number.POSITIVE_INFINITY : (value / whole) * step),
    }
  }
  const each = EACH.exec(unit)
  if (!each || !READINGS[as].units.includes(each[2]!)) return null
  return { unit: each[2]!, scale: (value) => value * Number(each[1]) }
}

/**
 * Wind speed of a Beaufort force, m/s: about the middle of its class.
 * Source: WMO-No. 8, Guide to Instruments and Methods of Observation (2018), part I, chapter 5, and code table 1100 of
 * WMO-No. 306 have the bounds of the classes; v = 0.836 B^1.5 is the WMO's formula of 1946. From memory.
 */
const beaufort = (force: number): number =>
  force > HIGHEST_FORCE ? Number.POSITIVE_INFINITY : 0.836 * force ** 1.5
const HIGHEST_FORCE = 12
