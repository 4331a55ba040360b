import { figures, under } from '../../facts/figure.ts'

/** What `explain` says of the figures of `crop`. */
export const FIGURES = figures('crop and harvest', [
  {
    name: 'vines',
    keys: ['crop.blocks.vines'],
    what: 'Living vines: rows x row length / vine spacing, minus the missing ones.',
    formula: 'vines = rows x row length / vine spacing - missing vines',
    'common practice':
      'common practice, no source; agrees with a kiwiberry guide of the University of New Hampshire, year not known',
  },
  {
    name: 'crop-estimate',
    keys: under('crop.blocks', 'bunchesPerVine bunchWeight estimate low high'),
    what: 'Fruit on the block, with a 95 % interval.',
    formula:
      'crop = vines x bunches per vine x bunch weight x growth factor. The intervals of the parts are combined in quadrature.',
    units: 'kg; g; bunches',
    limits: 'From fewer than ten vines, it is called a guess (our limit).',
    choices:
      'Number and weight of bunches are taken as independent. Where vines with many bunches have light ones, the error is overstated.',
    memory: 'Zou & Donner 2008, Stat. Med. 27:1693, from memory; Student 1908 for counts and weights',
  },
  {
    name: 'growth-factor',
    keys: ['crop.blocks.growthFactor'],
    what: "Bunch weight at harvest divided by that in the lag phase: from the block's own seasons, else 2.",
    formula: 'The mean of your own seasons is used. Their variation is pooled with that of the default.',
    limits: 'The default ranges from 1.67 to 2.5.',
    read: 'Wolfe, Oregon State University, and Fiola, University of Maryland, year not known (factor 2); de la Fuente et al. 2015, OENO One 49 (40 to 60 % of the final weight)',
  },
  {
    name: 'crop-load',
    keys: ['crop.blocks.balance'],
    what: 'Fruit of a season divided by the prunings of the following winter, per vine: the Ravaz index.',
    formula: 'crop load = kg picked / living vines / kg of prunings a vine',
    limits:
      'Usual is 4 to 10 on a single canopy, 5 to 10 on a divided one. Other varieties and climates differ. Prunings of another winter do not count.',
    read: 'Kliewer & Dokoozlian 2005, Am. J. Enol. Vitic. 56, abstract',
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
      'The intervals of the blocks are combined in quadrature. Where blocks share the default growth factor, they are added up.',
    units: 'counts; kg; kg/ha',
    own: 'the recorded counts; joining: textbook',
  },
  {
    name: 'counting-plan',
    keys: ['crop.blocks.toCount', 'crop.blocks.toWeigh', 'crop.blocks.toDo'],
    what: 'How many vines to count and bunches to weigh for the error you want.',
    formula:
      'n = the smallest number for which t x variation / sqrt(n) is within the error that the other parts leave',
    units: 'vines; bunches',
    memory: 'Wolpert & Vilas 1992, Am. J. Enol. Vitic. (year and formula from memory)',
  },
  {
    name: 'past-estimates',
    keys: ['crop.blocks.past', 'crop.blocks.learned', 'crop.blocks.learnedApplied'],
    what: 'Past estimates against what was picked, and the factor that would have corrected them.',
    formula: "factor = geometric mean of picked / estimated. The interval is Student's t on the logarithms.",
    own: 'the recorded crops and picks',
  },
  {
    name: 'thinning',
    keys: ['crop.blocks.thinning'],
    what: 'Bunches to keep and to drop on a vine for the crop you want.',
    formula: 'bunches to keep = target / (vines x weight of a bunch at harvest)',
    units: 'bunches a vine',
    limits: 'The bunches left can grow heavier than without thinning, so count again.',
    own: 'own arithmetic of the estimate',
  },
])
