import type { StandingKind } from '../../records/kinds.ts'
import { unlessMetric, type Wording } from './wording.ts'

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

/** The questions for the fields of a new block, variety, product or sprayer. */
export const RECORD_WORDING: Readonly<Record<StandingKind, Readonly<Record<string, Wording>>>> = {
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
