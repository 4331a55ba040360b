/**
 * Running totals that keep decimal ties: the sum of 0.1 ten times is 1, not 0.9999999999999999.
 *
 * A plain float sum of temperatures in tenths misses an exact threshold tie by a day. Here the rounding error is
 * carried along (Neumaier 1974, ZAMM 54:39-51, from memory) and each total is rounded to a millionth, far below
 * what a thermometer reads and far above what is left of the error.
 *
 * @param values numbers, in order
 * @returns the total up to and including each value
 * @throws RangeError when a value is not a finite number
 * @example runningSum([0.1, 0.2]) // [0.1, 0.3]
 */
export function runningSum(values: readonly number[]): number[] {
  let sum = 0
  let lost = 0
  return values.map((value) => {
    if (!Number.isFinite(value)) throw new RangeError('runningSum requires finite numbers')
    const next = sum + value
    lost += Math.abs(sum) >= Math.abs(value) ? sum - next + value : value - next + sum
    sum = next
    return Math.round((sum + lost) * 1e6) / 1e6
  })
}
