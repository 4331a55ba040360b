import type { Figure } from '../../facts/figure.ts'

/** What `explain` says of the figures of `window`. */
export const FIGURES: readonly Figure[] = [
  {
    name: 'earliest-harvest',
    topic: 'law and resistance',
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
    name: 'picking-window',
    topic: 'when to pick',
    keys: [
      'window.blocks.target',
      'window.blocks.earliest',
      'window.blocks.likely',
      'window.blocks.latest',
      'ready.blocks.window',
    ],
    what: "The day on which the block's mean sugar reaches the low end of its target: likely, and the ends of a 90 % interval.",
    formula: 'methods weighed by 1 / s²; both sides widened where the methods differ more than they claim',
    units: 'dates',
    limits:
      'the methods share the weather of the season and are less independent than assumed; an estimate, never a reason not to taste',
    source:
      'inverse variance, textbook; widening by the ratio of Birge 1932, Phys. Rev. 40:207-227 (from memory)',
    basis: 'memory',
  },
  {
    name: 'sugar-trend',
    topic: 'when to pick',
    keys: ['window.blocks.methods.earliest', 'window.blocks.methods.likely', 'window.blocks.methods.latest'],
    what: 'Method: the sampling days of the last four weeks, five at least where there are so many, carried forward, slowing allowed, to the first day with the mean at the target.',
    formula:
      'straight, slowing, quickening and bending lines weighed by how well they fit; inverse prediction of the mean, for the case that the target is reached within 35 days of the last sample',
    units: 'dates',
    limits:
      'at least three sampling days; some days ahead only. On curves that its constants were not set by, the interval meant for nine of ten held 78 to 94 of 100; ripening that stalls after the last sample is what it holds least',
    choices:
      'against days, or against heat sums where those foretell the samples better; 3 in 100 are given to a pace that halves after the last sample (our choice, no source); with --as-pressed the interval holds how unsure that is',
    source:
      'Hoeting et al. 1999, Statistical Science 14:382-417 (from memory); Sadras, Collins & Soar 2008, AJGWR 14 (sugar slows late); Sadras & Petrie 2011, AJGWR 17 (broken line, from memory)',
    basis: 'memory',
  },
  {
    name: 'heat-sum',
    topic: 'when to pick',
    keys: ['window.blocks.methods.earliest', 'window.blocks.methods.likely', 'window.blocks.methods.latest'],
    what: 'Method: the sum of daily means above 0 °C that the variety needs for a sugar level, from 1 April (north), with the days to come from past years.',
    formula: 'sum of max(0, daily mean) against the requirement; a tie counts as reached',
    units: '°C-days',
    limits: 'the sums have a published error of 7 to 10 days; the southern start is from memory',
    choices:
      "what the book's own past shows comes before the variety's record; the target is the low end of the block's range, or --target",
    source:
      'Parker et al. 2011, Aust. J. Grape Wine Res. 17:206-216; Parker et al. 2020, Agric. For. Meteorol. 285-286:107902',
    basis: 'read',
  },
  {
    name: 'days-after-veraison',
    topic: 'when to pick',
    keys: [
      'window.blocks.methods.earliest',
      'window.blocks.methods.likely',
      'window.blocks.methods.latest',
      'window.blocks.methods.why',
    ],
    what: "Method: days from half of the berries coloured to the record's target: the block's own from two earlier seasons on, else the variety's range. A method that can not answer says why.",
    formula: 'day of 50 % colour + middle of the range; the range is read as a 90 % interval',
    units: 'dates',
    choices: 'it knows nothing of a target asked for in place of that of the record, and says so',
    limits: 'colouring is taken to run from 5 to 95 % in a set number of days, a guess whose error is added',
    source: '30 to 60 days, common practice, from memory',
    basis: 'common practice',
  },
  {
    name: 'conflicts',
    topic: 'when to pick',
    keys: ['window.blocks.conflicts'],
    what: 'Where the window runs against something else: picking not allowed yet or not known, methods that disagree, samples that stand still or put the target too far off.',
    source: 'own rules over the figures named',
    basis: 'own',
  },
  {
    name: 'last-sprays',
    topic: 'when to pick',
    keys: ['window.blocks.lastSprays'],
    what: 'Which products of the book may still be sprayed on the day of the report, so that the block can be picked on the earliest day of its window.',
    formula: 'in time where the day + days before harvest + 1 is not after that day: the cautious reading',
    units: 'product ids',
    limits:
      'the longest days before harvest of a product are taken, whatever it is sprayed against; told up to 60 days ahead (our choice)',
    source:
      'the labels, as the records hold them; cover tells the same for the day on which the next spray is due',
    basis: 'own',
  },
  {
    name: 'window-detail',
    topic: 'when to pick',
    keys: [
      'window.blocks.targetSource',
      'window.blocks.legalFromCalendar',
      'window.blocks.lastSample',
      'window.blocks.picked',
      'window.blocks.why',
      'window.blocks.methods',
      'window.blocks.heat',
    ],
    what: 'Where the target comes from, the newest sample, the heat reached and needed, the weight of each method, and the first day of picking counted in days.',
    source: 'the records named',
    basis: 'own',
  },
  {
    name: 'backtest',
    topic: 'when to pick',
    keys: ['window.backtest'],
    what: 'How windows asked for in past seasons came out: likely day less the day of picking, and how often the interval held it.',
    formula: 'asked again so many days before each pick, with what was in the book by then',
    units: 'days; shares',
    limits: 'a pick is not the day on which sugar reached its target; both comparisons are given',
    source: 'the picks of the book',
    basis: 'own',
  },
]
