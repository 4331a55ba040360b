import type { Figure } from '../../facts/figure.ts'

/** What `explain` says of the figures of `harvest`. */
export const FIGURES: readonly Figure[] = [
  {
    name: 'harvest-plan',
    topic: 'crop and harvest',
    keys: [
      'harvest.blocks.crop',
      'harvest.blocks.crates',
      'harvest.blocks.personHours',
      'harvest.blocks.people',
      'harvest.blocks.hours',
      'harvest.blocks.juice',
      'harvest.totals',
      'harvest.blocks.buckets',
      'harvest.day',
      'harvest.blocks.known',
    ],
    what: 'What a harvest needs: crates, hours of picking, people or hours, and the juice to expect.',
    formula: 'person-hours = kg / rate; crates = kg / crate, rounded up; juice = t x litres per tonne',
    units: 'kg; hours; L',
    choices: "the rate is that of the book's own picks, else the site's",
    source:
      'your own figures; published for comparison: 50 kg per person-hour, United Kingdom, hortnews.com, year not known',
    basis: 'own',
  },
  {
    name: 'cellar-plan',
    topic: 'crop and harvest',
    keys: [
      'harvest.blocks.tank',
      'harvest.blocks.tanks',
      'harvest.blocks.bottles',
      'harvest.blocks.pressLoads',
      'harvest.blocks.order',
      'harvest.blocks.likely',
      'harvest.blocks.picked',
      'harvest.settings',
    ],
    what: 'Tanks, bottles and loads of the press for the juice to come, the order of picking by the windows, and what was picked against the plan.',
    formula: 'bottles = litres / litres a bottle; loads = kg / kg a load, rounded up',
    units: 'L; counts; dates',
    source: "the grower's own figures in vineyard.yaml; where none stands, the default is named",
    basis: 'own',
  },
  {
    name: 'harvest-range',
    topic: 'crop and harvest',
    keys: ['harvest.blocks.range', 'harvest.blocks.rate'],
    what: 'The plan at the low, likely and high end of the crop and of the picking rate.',
    formula: 'slowest rate with the highest crop for hours, and the other way round',
    units: 'kg; hours; kg per person-hour',
    source: "own picks by Student t, else the site's rate",
    basis: 'own',
  },
]
