import type { SeasonKind } from '../../records/kinds.ts'
import type { Style } from '../../render/style.ts'

type Units = Style['units']

/** The words of the question for a field. */
export interface Wording {
  ask: string
  /** An example of an answer, in the units of the site; left out where the question needs none. */
  like?: string | Readonly<Record<Units, string>>
  why: string
  /** The unit that a bare number gets; the question names it. */
  unit?: Readonly<Record<Units, string>>
  /** What follows that unit: `/min`. */
  per?: string
  /** The figure that `none` stands for. */
  none?: string
}

/** One text for metric and one for both US and imperial units, which differ in volumes only; or one for all. */
export const unlessMetric = (metric: string, customary = metric) => ({
  metric,
  us: customary,
  imperial: customary,
})

const DEGREES = unlessMetric('C', 'F')

const BY_THERMOMETER = 'By the max-min thermometer. What you did not read stays unknown.'

const EVERY: Readonly<Record<string, Wording>> = {
  date: {
    ask: 'Which day?',
    like: 'yesterday, Monday, 14 June',
    why: 'The day it was done or seen. Intervals and trends count from it.',
  },
  note: { ask: 'Anything else to note?', like: 'rain came, stopped early', why: 'A line in your own words.' },
  time: {
    ask: 'From when to when?',
    like: '18:00-19:10, or 6 pm-7:10 pm',
    why: 'The re-entry interval (REI) runs from the end of spraying.',
  },
  water: {
    ask: 'How much water?',
    like: {
      metric: '300 L/ha, or 45 L in all',
      us: '30 US gal/acre, or 12 US gal in all',
      imperial: '27 imp gal/acre, or 10 imp gal in all',
    },
    why: 'For each hectare or acre, or in all. It is checked against the label.',
  },
  weather: {
    ask: 'Wind, temperature, humidity?',
    like: unlessMetric('2 m/s SW 17 C 70 %', '4 mph SW 63 F 70 %'),
    why: 'As read when you sprayed: what you have, each with its unit. Inspectors look for it.',
  },
  operator: { ask: 'Who sprayed?', why: 'The spray record names the operator.' },
  berries: {
    ask: 'How many berries were in the sample?',
    like: '100',
    why: 'The more berries, the surer the sugar figure.',
  },
  brix: {
    ask: 'Sugar by refractometer, in °Brix?',
    like: '19.6, or one reading a bag: 18.2, 19.0, 20.4',
    why: 'One reading of the mixed juice, or several readings. Write a point for decimals.',
  },
  ph: { ask: 'pH?', like: '3.08', why: 'pH of the juice, by a meter.' },
  ta: {
    ask: 'Titratable acidity, in g/L?',
    like: '9.1',
    why: 'As tartaric acid. Where a laboratory gives it as sulphuric acid, multiply by 1.53.',
    unit: unlessMetric('g/L'),
  },
  'bunches-per-vine': {
    ask: 'Bunches on each vine that you counted?',
    like: '18 22 19 25',
    why: 'One number for each vine. Count vines picked at random, not the best ones.',
  },
  'bunch-weight': {
    ask: 'Weight of each bunch?',
    like: unlessMetric('48 55 51 g', '1.7 1.9 1.8 oz'),
    why: 'One weight for each bunch, or the mean of all.',
    unit: unlessMetric('g', 'oz'),
  },
  at: {
    ask: 'When were they weighed?',
    why: 'Bunches at lag phase will grow heavier; at harvest they no longer do.',
  },
  weight: {
    ask: 'Weight of fruit picked?',
    like: unlessMetric('1820 kg, or 30 buckets', '4000 lb, or 30 buckets'),
    why: 'All fruit picked in this block on this day.',
    unit: unlessMetric('kg', 'lb'),
  },
  job: {
    ask: 'What was done?',
    like: 'leaf removal',
    why: 'The job in your own words. The same words let jobs be added up.',
  },
  people: { ask: 'How many people?', like: '3', why: 'Used to learn how long a job takes.' },
  low: {
    ask: 'Lowest temperature of the day?',
    like: unlessMetric('8 C', '46 F'),
    why: BY_THERMOMETER,
    unit: DEGREES,
  },
  high: {
    ask: 'Highest temperature of the day?',
    like: unlessMetric('21 C', '70 F'),
    why: BY_THERMOMETER,
    unit: DEGREES,
  },
  rain: {
    ask: 'How much rain?',
    like: unlessMetric('4 mm, or none', '0.2 in, or none'),
    why: 'Rain of the day by the rain gauge. `none` is a dry day.',
    unit: unlessMetric('mm', 'in'),
    none: '0',
  },
}

const OF_KIND: Partial<Record<SeasonKind, Readonly<Record<string, Wording>>>> = {
  picks: {
    hours: {
      ask: 'For how many hours did they pick?',
      like: '5.5',
      why: 'From the first bunch to the last crate, without breaks.',
    },
    brix: {
      ask: 'Sugar of the must, in °Brix?',
      like: '20.8',
      why: 'At the press. It shows how far field samples are from the press.',
    },
    people: { ask: 'How many people picked?', like: '6', why: 'Used to learn how fast your pickers are.' },
  },
  work: {
    hours: {
      ask: 'How many hours in all?',
      like: '6',
      why: 'Hours of all people together: two people for 3 hours make 6.',
    },
  },
}

/** The words of the question for a field; undefined where it is never asked for. */
export const wordingOf = (kind: SeasonKind, option: string): Wording | undefined =>
  OF_KIND[kind]?.[option] ?? EVERY[option]

/** The example of a question in the units of the site. */
export const exampleIn = (like: Wording['like'], units: Units): string | undefined =>
  typeof like === 'object' ? like[units] : like

/** The question with its example: `How much water? For example 300 L/ha.` */
export function asked({ ask, like }: Pick<Wording, 'ask' | 'like'>, units: Units): string {
  const example = exampleIn(like, units)
  return example === undefined ? ask : `${ask} For example ${example}.`
}
