import {
  type DownyLimits,
  type DownyPrimaryVariant,
  downyPrimaryRule,
} from '../../agronomy/disease/downy-primary-rules.ts'
import type { Starts } from './starts.ts'

/** The choice made where sources differ, and the rule's source. */
interface PressureRule {
  index: 'powdery' | 'ascospores' | 'downy' | 'oospores' | 'secondary' | 'botrytis' | 'blackRot' | 'wetness'
  rule: string
  source: string
}

/** The rules used to judge the days. */
export function pressureRules({
  starts,
  variant,
  byDays,
  limits,
  proxy,
}: {
  starts: Starts
  /** The downy mildew rule for hours; null where there is only daily weather. */
  variant: DownyPrimaryVariant | null
  /** The rule for daily weather; null where all days have hours. */
  byDays: DownyPrimaryVariant | null
  limits?: DownyLimits | undefined
  proxy: WetnessSeen
}): PressureRule[] {
  const downy = [variant, byDays].flatMap((one) => one ?? [])
  return [
    {
      index: 'powdery',
      rule: `six neighbouring hourly means in 21.11-29.44 °C make a favourable day, runs split at midnight; an hour of 35.0 °C makes it hot; whether mildew was found is not asked; start: ${starts.why.budbreak}`,
      source:
        'Gubler, Rademacher, Vasquez & Thomas 1999, by the UC rules as reprinted; the reset from memory',
    },
    {
      index: 'ascospores',
      rule: '2.5 mm of rain and a mean of 10.0-26.7 °C over at least 12 wet hours',
      source: 'UC, and Gadoury & Pearson 1990 for the rain (from memory)',
    },
    {
      index: 'downy',
      rule: `${downy.map((one) => downyRule(one, limits)).join('; days without hours: ')}; ${starts.why.shoots}`,
      source: downy.map((one) => DOWNY_SOURCES[one]).join('; '),
    },
    {
      index: 'secondary',
      rule: 'four dark hours at 98 % humidity and 13 °C or more, then two wet hours near dawn; oil spots must be there',
      source: 'WineSkills, Plumpton; DPIRD Western Australia',
    },
    {
      index: 'botrytis',
      rule: `wet spells at 12-30 °C, ended by more than 4 dry hours; classes at 0, 0.5 and 1.0 of the logit; ${starts.why.flowering}`,
      source: 'Broome, English, Marois, Latorre & Aviles 1995; classes and range from memory',
    },
    {
      index: 'blackRot',
      rule: 'hours wet by mean temperature, 10.0-32.2 °C, in straight lines between the rows of the table',
      source: 'Spotts 1977, table as printed by Michigan State University',
    },
    {
      index: 'oospores',
      rule: 'ripe from a sum of daily means over 8 °C above 170, from 1 January (in the south from 1 July, our reading)',
      source: 'French-Swiss advice',
    },
    { index: 'wetness', rule: WETNESS[proxy], source: 'common practice, no source' },
  ]
}

/** The rule in words, with the limits in force. */
function downyRule(variant: DownyPrimaryVariant, limits: DownyLimits = {}): string {
  const rule = downyPrimaryRule(variant, limits)
  const span =
    rule.window === 'moving' ? 'any 24 h' : rule.days === 2 ? 'two calendar days' : 'a calendar day'
  const rain = `${rule.rainAbove ? 'more than ' : ''}${rule.rain} mm within ${span}`
  const degrees = `${rule.temperature} °C`
  const warmth =
    rule.temperatureAs === 'minimum'
      ? `no hour ${rule.temperatureAbove ? 'at or ' : ''}below ${degrees}`
      : `a mean ${rule.temperatureAbove ? 'above' : 'of'} ${degrees}`
  const own = limits.rain !== undefined || limits.temperature !== undefined
  return `${rain} with ${warmth}${own ? ', your limits' : ''}`
}

export type WetnessSeen = 'wetness' | 'proxy' | 'both' | 'unknown'

const WETNESS: Record<WetnessSeen, string> = {
  wetness: 'leaf wetness as measured; an hour counts from 30 minutes',
  proxy: 'no leaf wetness is measured: an hour counts as wet with any rain or with 90 % humidity',
  both: 'leaf wetness as measured, from 30 minutes in the hour; where it is missing, any rain or 90 % humidity',
  unknown: 'neither leaf wetness nor rain with humidity is measured',
}

const DOWNY_SOURCES: Record<DownyPrimaryVariant, string> = {
  'ten-ten-twentyfour': 'DPIRD Western Australia 2021; WineSkills, Plumpton',
  'three-tens': 'Baldacci 1947, as cited',
  'three-tens-minimum': 'figures of ADVID, Portugal',
  'mean-above-12': 'notice of Castilla-La Mancha',
  'little-rain': 'Kennelly et al. 2007, second-hand',
}
