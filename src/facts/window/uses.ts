import { countedSamples } from '../ripeness/sample-day.ts'
import { type BlockSample, berriesOf } from '../ripeness/samples.ts'
import type { Learned } from './past.ts'
import type { HalfColour } from './veraison.ts'

/** Kinds of evidence a window can be based on, in words, the most informative first. */
const USES = {
  samples: 'samples',
  berries: 'berries in each',
  replicates: 'spread between readings',
  temperature: 'temperature of the readings',
  'field-to-press': 'field-to-press difference',
  veraison: 'veraison',
  flowering: 'flowering and the usual time from there to veraison',
  'past-dates': 'the dates when this block ripened in past seasons',
  'usual-bloom': 'the usual time of bloom here and from there to veraison',
  weather: 'weather so far',
  forecast: 'forecast',
  'past-seasons': 'past seasons of this block',
  variety: 'past seasons of its variety',
}

type Use = keyof typeof USES

/** What this window is based on, the most informative first. */
export function usesOf(of: {
  samples: readonly BlockSample[]
  /** Where 50 % veraison came from, if it was used. */
  colour: HalfColour['by'] | null
  warmth: { isKnown: boolean; isForetold: boolean }
  bias: number
  learned: Learned
}): Use[] {
  const measured = countedSamples(of.samples, 'brix')
  const days = new Set(measured.map(({ entry }) => entry.date)).size
  const used: Partial<Record<Use, boolean>> = {
    samples: measured.length > 0,
    berries: measured.some((sample) => berriesOf(sample) !== undefined),
    replicates: measured.length > days || measured.some(({ facts }) => facts.brix!.n >= 3),
    temperature: measured.some(({ entry }) => entry.compensated === false),
    'field-to-press': of.bias !== 0,
    weather: of.warmth.isKnown,
    forecast: of.warmth.isForetold,
  }
  for (const use of [of.colour, of.learned.by]) if (use) used[use] = true
  return (Object.keys(USES) as Use[]).filter((use) => used[use])
}

/** What the window is based on, in one sentence. */
export function usesText({ uses, learnedFrom }: { uses: Use[]; learnedFrom: number[] }): string {
  const seasons = learnedFrom.toSorted((a, b) => a - b).join(', ')
  const parts = uses.map((use) =>
    use === 'past-seasons' || use === 'variety' ? `${USES[use]} (${seasons})` : USES[use],
  )
  return `Based on ${parts.join(', ')}.`
}
