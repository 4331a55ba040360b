export interface DownyPrimaryRule {
  /** mm in the window; `rainAbove` when exactly this much isn't enough. */
  rain: number
  rainAbove: boolean
  /** °C, as the lowest hour or the mean of the window; `temperatureAbove` when exactly this isn't enough. */
  temperature: number
  temperatureAbove: boolean
  temperatureAs: 'minimum' | 'mean'
  /** Length of the window in days of 24 h. */
  days: 1 | 2
  /** `moving`: ends with any hour of the day. `calendar`: whole calendar days, the last of them this day. */
  window: 'moving' | 'calendar'
}
export type DownyPrimaryVariant =
  | 'ten-ten-twentyfour'
  | 'three-tens'
  | 'three-tens-minimum'
  | 'mean-above-12'
  | 'little-rain'

const TEN_TEN: DownyPrimaryRule = {
  rain: 10,
  rainAbove: false,
  temperature: 10,
  temperatureAbove: false,
  temperatureAs: 'minimum',
  days: 1,
  window: 'moving',
}

/**
 * `ten-ten-twentyfour`: DPIRD Western Australia 2021 and WineSkills, Plumpton (both read), the minimum being the
 * latter's and the moving window our choice. `three-tens`: Baldacci 1947 as cited (paper not read).
 * `three-tens-minimum`: ADVID's figures (read). `mean-above-12`: Castilla-La Mancha notice (read).
 * `little-rain`: Kennelly et al. 2007, Phytopathology 97:512-522 (second-hand).
 */
export const DOWNY_PRIMARY_RULES: Record<DownyPrimaryVariant, DownyPrimaryRule> = {
  'ten-ten-twentyfour': TEN_TEN,
  'three-tens': { ...TEN_TEN, temperatureAs: 'mean', days: 2, window: 'calendar' },
  'three-tens-minimum': { ...TEN_TEN, rainAbove: true, days: 2, window: 'calendar' },
  'mean-above-12': {
    ...TEN_TEN,
    temperature: 12,
    temperatureAbove: true,
    temperatureAs: 'mean',
    days: 2,
    window: 'calendar',
  },
  'little-rain': { ...TEN_TEN, rain: 2.5, temperature: 11, temperatureAs: 'mean', window: 'calendar' },
}

/** Limits in place of a rule's own: mm of rain, °C. */
export interface DownyLimits {
  rain?: number | undefined
  temperature?: number | undefined
}

/** A rule with the limits given in place of its own. */
export function downyPrimaryRule(variant: DownyPrimaryVariant, limits: DownyLimits = {}): DownyPrimaryRule {
  const rule = DOWNY_PRIMARY_RULES[variant]
  return {
    ...rule,
    rain: limits.rain ?? rule.rain,
    temperature: limits.temperature ?? rule.temperature,
  }
}
