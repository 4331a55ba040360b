/** °C that killed a tenth and nine tenths of buds or shoots, by stage, Concord. */
const KILLED = {
  'first swell': { tenth: -10.6, most: -19.4 },
  'late swell': { tenth: -6.1, most: -12.2 },
  'bud burst': { tenth: -3.9, most: -8.9 },
  'first leaf': { tenth: -2.8, most: -6.1 },
  'second leaf': { tenth: -2.2, most: -5.6 },
  'third leaf': { tenth: -2.2, most: -3.3 },
  'fourth leaf': { tenth: -2.2, most: -2.8 },
} as const

export type FrostStage = keyof typeof KILLED

/**
 * What a night's lowest temperature does to green parts: under a tenth killed, between, or nine tenths and more.
 * Held half an hour, in a freezer, of one American variety; wet buds die some degrees warmer, and sources disagree by
 * more than a degree: never certain, and a margin belongs on top.
 * Source: Snyder & de Melo-Abreu 2005, Frost Protection vol. 1 (FAO), table 4.8, after Proebsting et al. 1988 (read
 * where another source reports it).
 *
 * @param stage stage of the buds or shoots
 * @param lowest °C at the height of the buds
 * @throws RangeError when the temperature is not finite
 */
export function frostKill(stage: FrostStage, lowest: number): 'under 10 %' | '10 to 90 %' | '90 % and more' {
  if (!Number.isFinite(lowest)) throw new RangeError('frostKill requires a finite temperature')
  const { tenth, most } = KILLED[stage]
  if (lowest <= most) return '90 % and more'
  return lowest <= tenth ? '10 to 90 %' : 'under 10 %'
}
