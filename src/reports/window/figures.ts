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
    what: 'The first day on which picking is allowed after all sprays so far, by the pre-harvest intervals (PHI) of the labels.',
    formula:
      'counted in days: day of spraying + days; cautious: the first morning after full days of 24 hours from the end of spraying',
    units: 'date',
    choices:
      'no text read says whether the day of spraying counts; reports hold to the cautious reading and name the other where it differs',
    source:
      'NPIC, Oregon State University 2018 (what the interval means); a farm-assurance standard, year not known (without an end time, the end of the day)',
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
      'window.blocks.open',
      'ready.blocks.window',
    ],
    what: "The day on which the block's mean sugar reaches the low end of its target: the days by which the chance comes to 5, 50 and 95 %. An end that does not come within 60 days is open.",
    formula: 'the days at which the chance of the ripening model passes 0.05, 0.5 and 0.95; see chance',
    units: 'dates',
    limits:
      'an estimate, never a reason not to taste; `npm run skill` prints how often it held on simulated seasons',
    source: 'own choice of the shares; the model as under chance',
    basis: 'own',
  },
  {
    name: 'chance',
    topic: 'when to pick',
    keys: [
      'window.blocks.chance',
      'window.blocks.chance.date',
      'window.blocks.chance.share',
      'window.blocks.today',
      'window.blocks.rate',
    ],
    what: 'The share of belief, day by day, that the mean sugar of the block has reached the target: today, and on every day up to 60 days ahead. Reached once is reached.',
    formula:
      "S' = S + c (m - rho S + d), d' = 0.93 d + noise, c = 1 + beta x (°C warmer than the season's own course); a Kalman filter at each point of a grid of rho, beta, noise of samples and swings, weighed by likelihood",
    units: 'shares 0 to 1; °Brix a day',
    choices:
      'rate at 18 Brix 0.24 a day, standard deviation 0.055; 50 % veraison as 8.5 Brix, standard deviation 1.6, until two samples stand; 1 in 10 that ripening stands still for up to a week before the target; 0.15 Brix of error that all samples share (own choice, no source)',
    limits: 'a course that breaks after the last sample is what it holds least',
    source:
      'Kalman 1960, J. Basic Eng. 82:35-45; Durbin & Koopman 2012, Time Series Analysis by State Space Methods, 2nd ed., ch. 4; Hoeting et al. 1999, Statistical Science 14:382-401 (from memory)',
    basis: 'memory',
  },
  {
    name: 'window-uses',
    topic: 'when to pick',
    keys: ['window.blocks.uses', 'window.blocks.learnedFrom', 'window.blocks.past', 'window.blocks.veraison'],
    what: "What a window rests on: samples, berries in them, spread between readings, temperature of the readings, field-to-press difference, veraison, weather so far, forecast, past seasons of the block, else of its variety; and the dates of the block's earlier seasons.",
    formula:
      'variance of a sample: (noise between days)² + 1.75² / berries, 60 where none are written; past seasons narrow the rate by their precision, with 0.02 Brix a day between seasons',
    units: 'words; seasons; dates',
    choices: 'past seasons of the variety count only where the block has none of its own',
    source: 'own choice, no source',
    basis: 'own',
  },
  {
    name: 'next-sample',
    topic: 'when to pick',
    keys: [
      'window.blocks.next_sample',
      'window.blocks.next_sample.date',
      'window.blocks.next_sample.berries',
      'window.blocks.next_sample.narrows_days',
    ],
    what: 'When to sample next, how many berries, and by how many days the window gets narrower.',
    formula:
      'the variance of the mean on the likely day, before and after one more sample; within a week, two days before the earliest day where there is time, three days after the last sample',
    units: 'date; berries; days',
    limits: 'what is expected of a sample before it is read: a surprise can widen the window',
    source:
      'own choice of days; the model of `chance` asked ahead, Durbin & Koopman 2012, ch. 4, from memory',
    basis: 'memory',
  },
  {
    name: 'acid-window',
    topic: 'when to pick',
    keys: ['window.blocks.acid', 'window.blocks.ph'],
    what: 'When acid falls to the high end of its range and pH rises to the low end of its own, from three days of measuring on.',
    formula: 'the model of sugar for -ln(acid in g/L) and for pH, with rates of their own',
    units: 'dates',
    choices: '2 % a day at 9 g/L, 0.012 pH a day at pH 3.1 (own choice, no source)',
    source: 'as for chance',
    basis: 'own',
  },
  {
    name: 'conflicts',
    topic: 'when to pick',
    keys: ['window.blocks.conflicts'],
    what: 'Where the window runs against something else: picking not allowed yet, or not known from when.',
    source: 'own rules over the figures named',
    basis: 'own',
  },
  {
    name: 'last-sprays',
    topic: 'when to pick',
    keys: ['window.blocks.lastSprays'],
    what: 'Which recorded products may still be sprayed on the day of the report, so that the block can be picked on the earliest day of its window.',
    formula: 'in time where the day + PHI + 1 is not after that day: the cautious reading',
    units: 'product ids',
    limits:
      'the longest pre-harvest interval (PHI) of a product is taken, whatever it is sprayed against; told up to 60 days ahead (our choice)',
    source:
      'the labels, as the records hold them; `cover` tells the same for the day on which the next spray is due',
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
    ],
    what: 'Where the target comes from, the newest sample, and the first day of picking counted in days.',
    source: 'the records named',
    basis: 'own',
  },
  {
    name: 'backtest',
    topic: 'when to pick',
    keys: ['window.backtest'],
    what: 'How windows asked for in past seasons came out: likely day less the day of picking, and how often the interval held it.',
    formula: 'asked again so many days before each pick, with what was recorded by then',
    units: 'days; shares',
    limits: 'a pick is not the day on which sugar reached its target; both comparisons are given',
    source: 'the recorded picks',
    basis: 'own',
  },
]
