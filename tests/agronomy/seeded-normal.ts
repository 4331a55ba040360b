/**
 * Source of standard normal numbers that is the same in every run: a linear congruential generator (constants of
 * Numerical Recipes) through the method of Box & Muller.
 */
export function seededNormal(seed: number): () => number {
  let state = seed
  const uniform = (): number => {
    state = (state * 1_664_525 + 1_013_904_223) % 4_294_967_296
    return (state + 0.5) / 4_294_967_296
  }
  return () => Math.sqrt(-2 * Math.log(uniform())) * Math.cos(2 * Math.PI * uniform())
}
