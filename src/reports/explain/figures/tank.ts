import type { Figure } from './figure.ts'

const units = { source: 'the units alone', basis: 'own' } as const
const label = { source: "the label, as copied into the product's record", basis: 'read' } as const

/** What is said beside the amounts of a mix, of a sprayer and of a season's sprays. */
export const TANK: readonly Figure[] = [
  {
    ...units,
    name: 'fills',
    topic: 'spraying',
    keys: ['mix.even', 'mix.fills', 'mix.toAdd', 'mix.tooMuch', 'mix.waterBy', 'mix.products.perFill'],
    what: 'Each fill of the tank in turn, evenly shared where asked, what is still to be added to what the tank holds, and by what the water was settled.',
    formula: 'even fills: water / number of fills; to add = fill - what is in the tank',
    units: 'L; kg or L',
  },
  {
    ...label,
    name: 'dose-limits',
    topic: 'spraying',
    keys: ['mix.products.limits', 'mix.products.capped', 'mix.products.concentrationFactor', 'mix.offRate'],
    what: "The limits that a dose is held to, whether a most for ground area cut it, how many times the dilute concentration the tank holds, and how far the sprayer's own output is off the water wanted.",
    formula: 'factor = dilute volume / water per hectare; off = output / wanted - 1',
  },
  {
    ...units,
    name: 'scale-rounding',
    topic: 'spraying',
    keys: ['mix.products.rounded'],
    what: 'An amount as a scale or a jug can show it, and by how much that changes the dose.',
    limits: 'to the nearest step, but down where the step above would pass the label’s most',
  },
  {
    name: 'mixing-steps',
    topic: 'spraying',
    keys: ['mix.steps'],
    what: 'The products in mixing order, each with its rank, the reason, and where sources differ on it.',
    source:
      'North Dakota Weed Control Guide 2021 (second hand); Oklahoma State University Extension, Herbicide mixing order (undated)',
    basis: 'read',
  },
  {
    ...units,
    name: 'pass-time',
    topic: 'spraying',
    keys: ['mix.time', 'calibrate.course', 'calibrate.plot'],
    what: 'Minutes of spraying without turns and refills, of one tank, and the course or plot of a calibration.',
    formula: 'hours = area / (speed x width / 10), with km/h and m',
    units: 'minutes; m; seconds',
  },
  {
    ...label,
    name: 'after-a-mix',
    topic: 'spraying',
    keys: ['mix.after'],
    what: 'What follows if the mix is sprayed: re-entry, first day of picking, the next application, and the stock that is left.',
    formula:
      'as in ready, note and today; stock left = stock - what was sprayed since it was counted - this mix',
    choices:
      'without an end time it counts from the end of the day; both readings of the days before harvest are given',
  },
  {
    name: 'output-wanted',
    topic: 'spraying',
    keys: [
      'calibrate.method',
      'calibrate.nozzleMean',
      'calibrate.nozzleTolerance',
      'calibrate.wanted',
      'calibrate.saved',
    ],
    what: 'How far the output is off what is wanted, and the flow, nozzle, speed or pressure that would give it.',
    formula:
      'flow = volume x speed x width / 600; speed in proportion to output; pressure = pressure x (flow wanted / flow)²',
    units: 'L/ha; L/min; km/h; bar',
    limits: '5 % off is within tolerance for the whole, 10 % for a nozzle',
    source: 'Ozkan 2021, Ohio State University Extension FABE-537; nozzle law from memory',
    basis: 'read',
  },
  {
    name: 'uses-of-season',
    topic: 'law and resistance',
    keys: ['totals.blocks.groups', 'totals.blocks.targets'],
    what: 'How many sprays of a season held each mode-of-action group, and how many were against each target.',
    units: 'counts',
    source: 'FRAC Code Lists 2018 to 2021 for the groups; own counts',
    basis: 'read',
  },
  {
    name: 'frequency-parts',
    topic: 'law and resistance',
    keys: ['totals.blocks.frequency'],
    what: 'The treatment frequency in parts: synthetic, mineral and biological products, those of unsaid nature, and treatments without a reference dose.',
    formula: 'as treatment-frequency, summed by what the product’s record says of its nature',
    source: 'Reussir Vigne; La Vigne no. 229, March 2011; the parting is our own',
    basis: 'read',
  },
  {
    name: 'copper-room',
    topic: 'law and resistance',
    keys: [
      'totals.blocks.copper.window',
      'totals.blocks.copper.roomSeason',
      'totals.blocks.copper.roomRolling',
    ],
    what: 'Copper that may still be put on a hectare this season and within the years of the limit, and which years are known.',
    formula: 'limit - used; never below zero',
    limits:
      'where a year of the limit is not in the book, the room over the years is the most that there can be; null where a dose or a content is unknown',
    units: 'kg of copper metal per ha',
    source: 'Implementing Regulation (EU) 2018/1981',
    basis: 'read',
  },
  {
    ...units,
    name: 'stock-and-cost',
    topic: 'law and resistance',
    keys: ['totals.store'],
    what: 'What of each product was used in the season, what that cost by its price, and what is left of the stock.',
    formula: 'cost = used x price; left = stock - used since it was counted',
    units: 'kg or L; the currency of the price',
  },
]
