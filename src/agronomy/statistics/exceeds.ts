/**
 * Whether a figure lies above a limit by more than binary fractions do by themselves (1 part in 10^9), so
 * that 1.1 against a limit of 1 + 10 % is still inside.
 * @param value any unit
 * @param limit the same unit
 */
export function exceeds(value: number, limit: number): boolean {
  return value - limit > 1e-9 * Math.max(Math.abs(value), Math.abs(limit))
}
