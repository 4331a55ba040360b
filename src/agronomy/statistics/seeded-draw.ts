import { createHash } from 'node:crypto'

/**
 * Whole numbers drawn at random without repeats from 0 up to `from`, the same ones for the same seed, in ascending
 * order: a simple random sample. Each draw is the first 48 bits of a SHA-256 of the seed and the number of the draw
 * (FIPS 180-4), modulo `from`: no value is likelier than another by more than `from` in 2^48.
 * @param options seed, any text; count, how many are wanted: all of them where there are fewer
 * @throws RangeError where count or from is no whole number of 0 or more
 */
export function seededDraw(options: { seed: string; count: number; from: number }): number[] {
  const { seed, count, from } = options
  if (![count, from].every((each) => Number.isInteger(each) && each >= 0))
    throw new RangeError(`seededDraw requires whole numbers, got ${count} of ${from}`)
  if (count >= from) return Array.from({ length: from }, (_, index) => index)
  // For more than half, draws those to leave out, so that few draws repeat.
  const few = count <= from / 2
  const drawn = new Set<number>()
  for (let draw = 0; drawn.size < (few ? count : from - count); draw++)
    drawn.add(createHash('sha256').update(`${seed}\n${draw}`).digest().readUIntBE(0, 6) % from)
  if (few) return [...drawn].sort((a, b) => a - b)
  return Array.from({ length: from }, (_, index) => index).filter((index) => !drawn.has(index))
}
