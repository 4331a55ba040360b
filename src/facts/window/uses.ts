import type { BlockSample } from '../ripeness/samples.ts'
import type { Learned } from './past.ts'
import { berriesOf } from './readings.ts'
import type { HalfColour } from './veraison.ts'

/** Kinds of evidence a window can be based on. */
export type Use =
  | 'samples'
  | 'berries'
  | 'replicates'
  | 'temperature'
  | 'field-to-press'
  | 'veraison'
  | 'flowering'
  | 'past-dates'
  | 'usual-bloom'
  | 'weather'
  | 'forecast'
  | 'past-seasons'
  | 'variety'

/** What this window is based on, the most informative first. */
export function usesOf(of: {
  samples: readonly BlockSample[]
  /** Where 50 % veraison came from, if it was used. */
  colour: HalfColour['by'] | null
  isWeatherKnown: boolean
  isForecastUsed: boolean
  bias: number
  learned: Learned
}): Use[] {
  const measured = of.samples.filter(({ facts }) => facts.brix)
  const days = new Set(measured.map(({ entry }) => entry.date)).size
  const uses: [Use, boolean][] = [
    ['samples', measured.length > 0],
    ['berries', measured.some((sample) => berriesOf(sample) !== undefined)],
    ['replicates', measured.length > days || measured.some(({ facts }) => facts.brix!.n >= 3)],
    ['temperature', measured.some(({ entry }) => entry.compensated === false)],
    ['field-to-press', of.bias !== 0],
    ['veraison', of.colour === 'veraison'],
    ['flowering', of.colour === 'flowering'],
    ['past-dates', of.colour === 'past-dates'],
    ['usual-bloom', of.colour === 'usual-bloom'],
    ['weather', of.isWeatherKnown],
    ['forecast', of.isForecastUsed],
    ['past-seasons', of.learned.own.length > 0],
    ['variety', of.learned.variety.length > 0],
  ]
  return uses.flatMap(([use, used]) => (used ? use : []))
}
