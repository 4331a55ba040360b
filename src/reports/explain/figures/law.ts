import type { Figure } from './figure.ts'

const topic = 'law and resistance'

export const LAW: readonly Figure[] = [
  {
    name: 'applications',
    topic,
    keys: [
      'totals.blocks.sprays',
      'totals.blocks.products.applications',
      'totals.blocks.products.total',
      'totals.blocks.products.perHa',
    ],
    what: 'Sprays of a season up to the day, how many held each product, and how much of it went out.',
    formula: 'total = sum of dose per hectare x treated area; per hectare = total / area of the block',
    units: 'counts; kg or L; kg/ha or L/ha',
    source: "the entries and the products' records",
    basis: 'own',
  },
  {
    name: 'active-per-hectare',
    topic,
    keys: ['totals.blocks.actives.perHa', 'totals.blocks.actives.group'],
    what: "Active substance put on a hectare of the block's own area in the season, with its mode-of-action group.",
    formula: 'product per hectare x content of the product',
    units: 'kg/ha',
    source:
      'Waxman, Agrochemical and Pesticide Safety Handbook (author from memory); group codes: FRAC Code Lists 2018 to 2021',
    basis: 'read',
  },
  {
    name: 'copper',
    topic,
    keys: [
      'totals.blocks.copper.season',
      'totals.blocks.copper.rolling',
      'totals.blocks.copper.years',
      'totals.blocks.copper.limitSeason',
      'totals.blocks.copper.limitRolling',
    ],
    what: "Copper metal on a hectare of the block's own area: in the season, and over calendar years against a limit.",
    formula:
      'sum of product per hectare x content of copper metal; a compound is brought to metal by its weights',
    units: 'kg of copper metal per ha',
    limits: "the site's `limits: copper`; in the European Union 28 kg/ha over 7 years",
    choices:
      'the regulation does not say whether the 7 years move along or stand as a block: they move along unless `from` names the first year of a block. A year without a record is unknown and not zero',
    source: 'Implementing Regulation (EU) 2018/1981; Regulation (EC) 889/2008 for the moving reading',
    basis: 'read',
  },
  {
    name: 'treatment-frequency',
    topic,
    keys: ['totals.blocks.treatmentFrequency'],
    what: 'Treatment frequency index: how many full doses a hectare got. A mixture of two products counts as two.',
    formula: 'sum of dose / reference dose x share of the area treated',
    units: 'full doses',
    limits: 'a treatment without a reference dose counts 1',
    choices:
      "the reference is the label's most for the target named, the lowest of them where several are or none is; adjuvants are left out",
    source: 'Reussir Vigne; La Vigne no. 229, March 2011; negoce-centre-atlantique.com 2025',
    basis: 'read',
  },
  {
    name: 'earliest-harvest',
    topic,
    keys: [
      'window.blocks.legalFrom',
      'ready.blocks.legalFrom',
      'harvest.blocks.legalFrom',
      'note.follows.pick',
    ],
    what: 'The first day on which picking is allowed after all sprays so far, by the days before harvest of the labels.',
    formula:
      'counted in days: day of spraying + days; cautious: the first morning after full days of 24 hours from the end of spraying',
    units: 'date',
    choices:
      'no text read says whether the day of spraying counts; reports hold to the cautious reading and name the other where it differs',
    source:
      'NPIC, Oregon State University 2018 (what the interval means); a farm-assurance standard (without an end time, the end of the day)',
    basis: 'read',
  },
  {
    name: 'next-application',
    topic,
    keys: ['note.follows.next'],
    what: 'The first day on which a product may be used again by the shortest interval of its label.',
    formula: 'day of spraying + shortest interval, a part of a day counting as a whole one',
    units: 'date',
    source: "the label, as copied into the product's record",
    basis: 'read',
  },
]
