function positive(value: number, name: string): void {
  if (!(value > 0 && Number.isFinite(value))) throw new RangeError(`${name} must be above 0`)
}

/**
 * Brix x pH². Often quoted targets: about 200 for white, 260 for red. Throws a RangeError unless both are above 0.
 * Source: Coombe, Dundon & Short (1980), J. Sci. Food Agric. 31:495-502; targets second-hand.
 */
export function brixPhSquared(brix: number, ph: number): number {
  positive(brix, 'Brix')
  positive(ph, 'pH')
  return brix * ph * ph
}

/**
 * Sugar to acid ratio: Brix over titratable acidity in g per 100 mL. `acidity` is given in g/L as tartaric, so the
 * ratio is 10 Brix / acidity. 30-35 is often sought; cold districts may reach 25 only.
 * Throws a RangeError unless both are above 0.
 * Source: Cox, From Vines to Wines (second-hand).
 */
export function brixAcidRatio(brix: number, acidity: number): number {
  positive(brix, 'Brix')
  positive(acidity, 'acidity')
  return (10 * brix) / acidity
}
