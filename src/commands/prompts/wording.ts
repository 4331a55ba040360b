import type { Style } from '../../render/style.ts'
import type { Kind } from '../../reports/note/fields.ts'

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

const VOLUME = { metric: 'L', us: 'US gal', imperial: 'imp gal' }

const named = (what: string, like: string): Wording => ({
  ask: `What is the ${what} called?`,
  like,
  why: 'The name that you use; its file gets the same name.',
})
const proneness = (disease: string): Wording => ({
  ask: `How easily does it catch ${disease}?`,
  why: 'By a list of varieties or your own experience.',
})

const OF_KIND: Partial<Record<Kind, Readonly<Record<string, Wording>>>> = {
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
  blocks: {
    name: named('block', 'Top Terrace'),
    missing: {
      ask: 'How many vines are missing or dead?',
      like: '12, or none',
      why: 'Crop estimates leave them out. The sprayed area stays the same.',
      none: '0',
    },
    planted: { ask: 'In which year was it planted?', like: '2016', why: 'Only for the record.' },
  },
  varieties: {
    name: named('variety', 'Solaris'),
    colour: { ask: 'What colour are its berries?', why: 'Colour decides the usual target ranges.' },
    powdery: proneness('powdery mildew'),
    downy: proneness('downy mildew'),
    botrytis: proneness('botrytis'),
  },
  products: {
    name: {
      ask: 'What is the product called?',
      like: 'Sulphur 80',
      why: 'The trade name, as printed on the label.',
    },
    form: {
      ask: 'Which form is it? Two letters on the label.',
      like: 'WG, WP, SC, EC, SL',
      why: 'It decides in which order products go into the tank.',
    },
    kind: {
      ask: 'What kind of product is it?',
      why: 'Oils and biologicals are judged by rules of their own.',
    },
    number: { ask: 'Authorisation number?', why: 'The official spray record asks for it.' },
    'before-harvest': {
      ask: 'Pre-harvest interval (PHI), in days?',
      like: '21',
      why: 'Days from the last spray to picking. Without it there is no picking date.',
      unit: unlessMetric('d'),
    },
    're-entry': {
      ask: 'Re-entry interval (REI)?',
      like: '24 h, or until dry',
      why: 'How long people must stay out. Without it, rowbook gives no time for re-entry.',
      unit: unlessMetric('h'),
    },
    'max-per-season': { ask: 'Most applications a season?', like: '6', why: 'As the label allows.' },
    water: {
      ask: 'Water per hectare or acre, by the label?',
      like: { metric: '200-1000 L/ha', us: '20-100 US gal/acre', imperial: '20-90 imp gal/acre' },
      why: 'Checks report sprays with less or more water.',
    },
    label: {
      ask: 'Where did you read these figures?',
      like: 'printed label, bought March 2026',
      why: 'Labels change. This says which one you copied.',
    },
  },
  sprayers: {
    name: named('sprayer', 'Knapsack'),
    tank: {
      ask: 'How much does its tank hold?',
      like: { metric: '15 L', us: '4 US gal', imperial: '3 imp gal' },
      why: 'Up to the mark that you fill it to.',
      unit: VOLUME,
    },
    flow: {
      ask: 'How much does it spray in a minute, all nozzles together, measured?',
      like: { metric: '2 L/min', us: '0.5 US gal/min', imperial: '0.4 imp gal/min' },
      why: 'Caught in a jug and measured with water: `rowbook help calibrate` shows how.',
      unit: VOLUME,
      per: '/min',
    },
  },
}

/** The unit of a bare number in an answer about spacing. */
export const SPACING_UNIT = unlessMetric('m', 'ft')

/** The words of the question for a field; undefined where it is never asked for. */
export const wordingOf = (kind: Kind, option: string): Wording | undefined =>
  OF_KIND[kind]?.[option] ?? EVERY[option]

/** The example of a question in the units of the site. */
export const exampleIn = (like: Wording['like'], units: Units): string | undefined =>
  typeof like === 'object' ? like[units] : like

/** The question with its example: `How much water? For example 300 L/ha.` */
export function asked({ ask, like }: Pick<Wording, 'ask' | 'like'>, units: Units): string {
  const example = exampleIn(like, units)
  return example === undefined ? ask : `${ask} For example ${example}.`
}
