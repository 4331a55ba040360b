import { figures, under } from '../../facts/figure.ts'

/** What `explain` says of the figures of `crop`. */
export const FIGURES = figures('crop and harvest', [
  {
    name: 'vines',
    keys: ['crop.blocks.vines'],
    what: 'Living vines: rows x row length / vine spacing, minus the missing ones.',
    formula: 'rows x row length / vine spacing - missing',
    source:
      'common practice, no source; agrees with a kiwiberry guide of the University of New Hampshire, year not known',
    basis: 'common practice',
  },
  {
    name: 'crop-estimate',
    keys: under('crop.blocks', 'bunchesPerVine bunchWeight estimate low high'),
    what: 'Fruit on the block, with a 95 % interval.',
    formula:
      'vines x bunches per vine x bunch weight x growth factor; intervals of the parts combined in quadrature',
    units: 'kg; g; bunches',
    limits: 'from fewer than ten vines it is called a guess (our limit)',
    choices:
      'assumes that number and weight of bunches are independent; this overstates the error where vines with many bunches have light ones',
    source: 'Zou & Donner 2008, Stat. Med. 27:1693, from memory; Student 1908 for counts and weights',
    basis: 'memory',
  },
  {
    name: 'growth-factor',
    keys: ['crop.blocks.growthFactor'],
    what: "Bunch weight at harvest divided by that in the lag phase: from the block's own seasons, else 2.",
    formula: 'mean of own seasons, their variation pooled with the default',
    limits: 'the default ranges from 1.67 to 2.5',
    source:
      'Wolfe, Oregon State University, and Fiola, University of Maryland, year not known (factor 2); de la Fuente et al. 2015, OENO One 49 (40 to 60 % of the final weight)',
    basis: 'read',
  },
  {
    name: 'crop-load',
    keys: ['crop.blocks.balance'],
    what: 'Fruit of a season divided by the prunings of the following winter, per vine: the Ravaz index.',
    formula: 'kg picked / living vines / kg of prunings a vine',
    limits:
      'usual: 4 to 10 on a single canopy, 5 to 10 on a divided one; other varieties and climates differ. Prunings of another winter do not count',
    source: 'Kliewer & Dokoozlian 2005, Am. J. Enol. Vitic. 56, abstract',
    basis: 'read',
  },
  {
    name: 'crop-detail',
    keys: [
      ...under(
        'crop.blocks',
        'missingVines perHa at counted weighed vinesCounted bunchesWeighed guess parts',
      ),
      'crop.total',
    ],
    what: 'What a crop estimate is based on: vines counted, bunches weighed, when and at which stage; and the total of the blocks.',
    formula:
      'intervals of the blocks combined in quadrature; added up where blocks share the default growth factor',
    units: 'counts; kg; kg/ha',
    source: 'the recorded counts; joining: textbook',
    basis: 'own',
  },
  {
    name: 'counting-plan',
    keys: ['crop.blocks.toCount', 'crop.blocks.toWeigh', 'crop.blocks.toDo'],
    what: 'How many vines to count and bunches to weigh for the error you want.',
    formula: 'smallest n with t x variation / sqrt(n) within the error that the other parts leave',
    units: 'vines; bunches',
    source: 'Wolpert & Vilas 1992, Am. J. Enol. Vitic. (year and formula from memory)',
    basis: 'memory',
  },
  {
    name: 'past-estimates',
    keys: ['crop.blocks.past', 'crop.blocks.learned', 'crop.blocks.learnedApplied'],
    what: 'Past estimates against what was picked, and the factor that would have corrected them.',
    formula: 'factor = geometric mean of picked / estimated; interval by Student t on the logarithms',
    source: 'the recorded crops and picks',
    basis: 'own',
  },
  {
    name: 'thinning',
    keys: ['crop.blocks.thinning'],
    what: 'Bunches to keep and to drop on a vine for the crop you want.',
    formula: 'keep = target / (vines x weight of a bunch at harvest)',
    units: 'bunches a vine',
    limits: 'the bunches left can grow heavier than without thinning, so count again',
    source: 'own arithmetic of the estimate',
    basis: 'own',
  },
])
