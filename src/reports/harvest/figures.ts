import { figures, under } from '../../facts/figure.ts'

/** What `explain` says of the figures of `harvest`. */
export const FIGURES = figures('crop and harvest', [
  {
    name: 'harvest-plan',
    keys: [
      ...under('harvest.blocks', 'crop rot crates personHours people hours juice'),
      'harvest.totals',
      'harvest.blocks.buckets',
      'harvest.day',
      'harvest.blocks.known',
    ],
    what: 'Crates, picking hours, people and juice for each block.',
    formula: 'person-hours = kg / rate; crates = kg / crate, rounded up; juice = t x litres per tonne',
    units: 'kg; hours; L',
    choices:
      'After a pick in part, the plan is for the share that still hangs (`rest`): that share of the estimate. A count made after such a pick stands for vines still full. The rate is that of your own past picks. Without any, it is `harvest: picking` in vineyard.yaml.',
    own: 'your own figures; published for comparison: 50 kg per person-hour, United Kingdom, hortnews.com, year not known',
  },
  {
    name: 'cellar-plan',
    keys: [
      ...under('harvest.blocks', 'tank tanks bottles pressLoads order likely ripe later picked'),
      'harvest.settings',
    ],
    what: 'Tanks, bottles and press loads for the juice expected; the order of picking; what was picked against the plan.',
    formula: 'bottles = litres / litres a bottle; loads = kg / kg a load, rounded up',
    units: 'L; counts; dates',
    own: 'your own figures in vineyard.yaml; else a default, which is named',
  },
  {
    name: 'harvest-range',
    keys: ['harvest.blocks.range', 'harvest.blocks.rate'],
    what: 'The plan for a low, a likely and a high crop and picking rate.',
    formula: 'least = low crop at the fast rate; most = high crop at the slow rate',
    units: 'kg; hours; kg per person-hour',
    own: 'your own picks (Student t); else the rate in vineyard.yaml',
  },
])
