import { requirePositive } from '../statistics/require-number.ts'
import { fillTanks } from './tank.ts'

interface PassTime {
  /** Minutes of spraying for the area, turning and filling left out. */
  minutes: number
  /** Minutes that a full tank lasts; null without flow and tank. */
  minutesPerTank: number | null
  /** Fills, the first among them, and refills after it; null without flow and tank. */
  fills: number | null
  refills: number | null
}

/**
 * How long the spraying itself takes: 600 / (speed x width) minutes a hectare, and how often the tank must be
 * filled for it.
 * @param pass area in ha, speed in km/h, width treated in one pass in m; flow in L/min and tank in L, optional
 * @throws RangeError where a figure is not positive
 * Source: the units alone; speed x width / 10 is ha/h.
 */
export function passTime(pass: {
  area: number
  speed: number
  width: number
  flow?: number
  tank?: number
}): PassTime {
  const { area, speed, width, flow, tank } = pass
  requirePositive({ area, speed, width })
  const minutes = (600 * area) / (speed * width)
  if (flow === undefined || tank === undefined)
    return { minutes, minutesPerTank: null, fills: null, refills: null }
  requirePositive({ flow, tank })
  const { fills } = fillTanks({ volume: minutes * flow, tank })
  return { minutes, minutesPerTank: tank / flow, fills: fills.length, refills: fills.length - 1 }
}

/**
 * Most spray that the nozzles can have put out in a time.
 * @param run flow of all nozzles in L/min, minutes of spraying
 * @returns L
 * @throws RangeError where a figure is not positive
 */
export function mostSprayed(run: { flow: number; minutes: number }): number {
  requirePositive(run)
  return run.flow * run.minutes
}
