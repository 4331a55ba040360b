import { requireNotNegative, requirePositive } from '../statistics/require-number.ts'

/** More fills than this mean a mistake in the volume or the tank. */
const MOST_FILLS = 10_000

/**
 * Fills of the tank for a volume of spray: full tanks and a part, or equal fills.
 * A remainder below 1e-9 of the volume is floating-point noise and not a fill.
 * @param job volume and tank in L; even for equal fills; alreadyInTank in L, plain water, not spray
 * @throws RangeError where volume or tank is not positive, more stands in the tank than it holds, or there
 *   would be more than 10 000 fills
 * Source: Canadian provincial factsheet "Calculating Spray Application Information"; the rest is arithmetic.
 */
export function fillTanks(job: { volume: number; tank: number; even?: boolean; alreadyInTank?: number }) {
  const { volume, tank, even = false, alreadyInTank = 0 } = job
  requirePositive({ volume, tank })
  requireNotNegative({ alreadyInTank })
  if (alreadyInTank > tank)
    throw new RangeError(`requires at most ${tank} L in the tank, got ${alreadyInTank}`)
  const slack = 1e-9 * volume
  const whole = Math.floor((volume + slack) / tank)
  if (whole >= MOST_FILLS) throw new RangeError(`requires fewer than ${MOST_FILLS} fills, got ${whole}`)
  const rest = volume - whole * tank
  const part = rest > slack ? rest : 0
  const fills = new Array<number>(whole).fill(tank)
  if (part > 0) fills.push(part)
  if (even && part > 0) fills.fill(volume / fills.length)
  const fullTanks = even && part > 0 ? 0 : whole
  const first = fills[0]!
  return {
    /** L of spray in each fill, in order. */
    fills,
    /** How many of them fill the tank to its mark. */
    fullTanks,
    /** L in the last part tank; 0 where there is none. */
    lastTank: part > 0 ? fills.at(-1)! : 0,
    /** L of water to add for each fill: the fill less what stood in the tank before the first. */
    toAdd: [Math.max(0, first - alreadyInTank), ...fills.slice(1)],
    /** L already in the tank beyond what the first fill needs; usually 0. */
    tooMuch: Math.max(0, alreadyInTank - first),
  }
}

/**
 * A product's total shared over the fills in proportion, so that the shares, added in any order, are exactly
 * the total. Equal fills get equal shares except the last, which takes the remainder of the rounding.
 * @param total kg or L
 * @param fills L each, as from fillTanks
 * @returns kg or L for each fill
 * @throws RangeError where there is no fill, a fill is not positive or the total is negative
 */
export function amountsPerFill(total: number, fills: readonly number[]): number[] {
  if (fills.length === 0) throw new RangeError('requires at least 1 fill')
  for (const fill of fills) requirePositive({ fill })
  requireNotNegative({ total })
  const volume = fills.reduce((sum, fill) => sum + fill, 0)
  const grain = lastBinaryPlace(total)
  let left = total
  return fills.map((fill, index) => {
    const share = Math.round(((total / volume) * fill) / grain) * grain
    const amount = index === fills.length - 1 ? left : Math.min(share, left)
    left -= amount
    return amount
  })
}

/** Whole multiples of this up to `value` add and subtract without rounding. */
function lastBinaryPlace(value: number): number {
  if (value === 0) return 1
  let power = 2 ** Math.floor(Math.log2(value))
  if (power > value) power /= 2
  if (power * 2 <= value) power *= 2
  return Math.max(power * Number.EPSILON, Number.MIN_VALUE)
}
