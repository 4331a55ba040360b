/**
 * Whether a figure is above a limit by more than rounding in binary (1 part in 10^9), so that 1.1 is still within a
 * limit of 1 + 10 %.
 * @param value any unit
 * @param limit the same unit
 */
export function exceeds(value: number, limit: number): boolean {
  return value - limit > 1e-9 * Math.max(Math.abs(value), Math.abs(limit))
}
