import { requirePositive } from '../statistics/require-number.ts'

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
