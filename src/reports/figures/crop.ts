import type { Figure } from './figure.ts'

const topic = 'crop and harvest'

export const CROP: readonly Figure[] = [
  {
    name: 'vines',
    topic,
    keys: ['crop.blocks.vines'],
    what: 'Vines that stand: rows x row length / vine spacing, less the missing ones.',
    formula: 'rows x row length / vine spacing - missing',
    source: 'common practice; checked against the University of New Hampshire kiwiberry guide',
    basis: 'common practice',
  },
  {
    name: 'crop-estimate',
    topic,
    keys: [
      'crop.blocks.bunchesPerVine',
      'crop.blocks.bunchWeight',
      'crop.blocks.estimate',
      'crop.blocks.low',
      'crop.blocks.high',
    ],
    what: 'Fruit on the block, with a 95 % interval.',
    formula:
      "vines x bunches per vine x bunch weight x growth factor; the parts' intervals joined in quadrature",
    units: 'kg; g; bunches',
    limits: 'from fewer than ten vines counted it is called a guess (our limit)',
    choices:
      'number and weight of bunches are taken as independent, which overstates the error where full vines have light bunches',
    source: 'Zou & Donner 2008, Stat. Med. 27:1693 (from memory); Student t for counts and weights',
    basis: 'memory',
  },
  {
    name: 'growth-factor',
    topic,
    keys: ['crop.blocks.growthFactor'],
    what: "Bunch weight at harvest over that in the lag phase: from the block's own seasons, else 2.",
    formula: 'mean of own seasons, their variation pooled with the default',
    limits: 'the default runs from 1.67 to 2.5',
    source:
      'Wolfe, Oregon State; Fiola, Univ. Maryland (2); de la Fuente et al. 2015, OENO One 49 (40 to 60 % of final weight)',
    basis: 'read',
  },
  {
    name: 'crop-load',
    topic,
    keys: ['crop.blocks.balance'],
    what: 'Fruit of a season over the prunings of the winter after it, of one vine: the Ravaz index.',
    formula: 'kg picked / living vines / kg of prunings a vine',
    limits:
      'usual 4 to 10 on a single canopy, 5 to 10 on a divided one; other varieties and climates differ. Prunings of another winter are not paired',
    source: 'Kliewer & Dokoozlian 2005, AJEV (abstract)',
    basis: 'read',
  },
  {
    name: 'harvest-plan',
    topic,
    keys: [
      'harvest.blocks.crop',
      'harvest.blocks.crates',
      'harvest.blocks.personHours',
      'harvest.blocks.people',
      'harvest.blocks.hours',
      'harvest.blocks.juice',
      'harvest.totals',
    ],
    what: 'What a harvest needs: crates, hours of picking, people or hours, and the juice to expect.',
    formula: 'person-hours = kg / rate; crates = kg / crate, rounded up; juice = t x litres per tonne',
    units: 'kg; hours; L',
    choices: "the rate is that of the book's own picks, else the site's",
    source:
      "the grower's own figures; published for comparison: 50 kg per person-hour, United Kingdom (hortnews.com)",
    basis: 'own',
  },
]
