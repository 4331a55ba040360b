import { SEASONS_DIFFER } from '../../agronomy/ripening/past-seasons.ts'
import { SUGAR, VERAISON } from '../../agronomy/ripening/ripening-prior.ts'
import { figures, under } from '../../facts/figure.ts'

/** What `explain` says of the figures of `window`. */
export const FIGURES = figures('when to pick', [
  {
    name: 'earliest-harvest',
    topic: 'law and resistance',
    keys: [
      'window.blocks.legalFrom',
      'ready.blocks.legalFrom',
      'harvest.blocks.legalFrom',
      'note.follows.pick',
    ],
    what: 'The first day on which all sprays so far allow picking, by the pre-harvest intervals (PHI) of the labels.',
    formula:
      'with the day of spraying as day 0: first day = that day + PHI. The cautious reading is later: the first morning after PHI full days from the end of spraying.',
    units: 'date',
    choices:
      'No source that we read says whether the day of spraying counts. Reports use the cautious reading, and name the other where it differs.',
    read: 'NPIC, Oregon State University 2018 (what the interval means); a farm-assurance standard, year not known (without an end time, the end of the day)',
  },
  {
    name: 'picking-window',
    keys: [...under('window.blocks', 'target earliest likely latest open'), 'ready.blocks.window'],
    what: "The day on which the block's mean sugar reaches the low end of its target. Its three days are those by which the chance is 5, 50 and 95 %. An end later than 60 days ahead is left open.",
    formula: 'The three days are those on which the chance passes 0.05, 0.5 and 0.95. See `chance`.',
    units: 'dates',
    limits:
      'It is an estimate, never a reason not to taste. `npm run skill` prints how often it was right on simulated seasons.',
    own: 'own choice of the shares; the model as under chance',
  },
  {
    name: 'chance',
    keys: [
      'window.blocks.chance',
      ...under('window.blocks.chance', 'date share'),
      ...under('window.blocks', 'today rate'),
    ],
    what: 'The chance that the mean sugar of the block has reached the target. It is given for today, and for each of the next 60 days. Once reached, it counts as reached.',
    formula:
      "S' = S + c (m - rho S + d); d' = 0.93 d + noise; c = 1 + beta x (°C warmer than the season's own course). A Kalman filter runs at each point of a grid of rho, beta, noise of samples and swings. The points are weighed by their likelihood.",
    units: 'shares 0 to 1; °Brix a day',
    choices: `The rate at ${SUGAR.rate.at} Brix is ${SUGAR.rate.mean} a day, standard deviation ${SUGAR.rate.spread}. Until there are two samples, 50 % veraison counts as ${VERAISON.brix} Brix, standard deviation ${VERAISON.spread}. It counts nothing where a sample up to that day was clearly riper. Of samples below 10 Brix, only the last counts. In 15 of 100 seasons, ripening stops for up to a week before the target. All samples share an error of ${SUGAR.shared} Brix (own choice, no source).`,
    limits: 'It is weakest where ripening changes pace after the last sample.',
    memory:
      'Kalman 1960, J. Basic Eng. 82:35-45; Durbin & Koopman 2012, Time Series Analysis by State Space Methods, 2nd ed., ch. 4; Hoeting et al. 1999, Statistical Science 14:382-401 (from memory)',
  },
  {
    name: 'window-uses',
    keys: ['window.blocks.uses', 'window.blocks.learnedFrom', 'window.blocks.past', 'window.blocks.veraison'],
    what: "What the window is based on, such as samples, veraison, weather and past seasons. Also the dates of the block's earlier seasons. Without samples and veraison, flowering counts, else the time at which past seasons ripened. Without those, bloom is estimated by heat sum or calendar. Only `window` answers from these: no spray, check or list of `today` does.",
    formula: `variance of a sample = (noise between days)² + ${SUGAR.within}² / berries, with 60 berries where no number is recorded. Past seasons narrow the rate, for each way of slowing, according to their precision. They also make large swings of it less likely. Between seasons it varies by ${100 * SEASONS_DIFFER} % of m. Bloom to 50 % veraison takes 45 to 75 days. Dates of a block differ between seasons by a standard deviation of 12 days.`,
    units: 'words; seasons; dates',
    choices: 'Past seasons of the variety count only where the block has none of its own.',
    limits: 'Weather of past seasons is not read. On simulated seasons it made no window better.',
    own: 'fruit set to veraison 40 to 50 days: annual cycle of grapevines as given by general references (read), widened; 12 days: field data of one cool district (from memory); else own choice, no source',
  },
  {
    name: 'next-sample',
    keys: ['window.blocks.next_sample', ...under('window.blocks.next_sample', 'date berries narrows_days')],
    what: 'When to sample next, how many berries to take, and how many days narrower that makes the window.',
    formula:
      'The variance of the mean on the likely day is compared, before and after one more sample. The sample is within a week. It is two days before the earliest day where there is time, and three days after the last sample.',
    units: 'date; berries; days',
    limits: 'It is what to expect before the sample is read. A surprising result can widen the window.',
    memory:
      'own choice of days; the model of `chance` asked ahead, Durbin & Koopman 2012, ch. 4, from memory',
  },
  {
    name: 'acid-window',
    keys: ['window.blocks.acid', 'window.blocks.ph'],
    what: 'When acid falls to the high end of its range. When pH rises to the low end of its range. Needs three days of measurements.',
    formula: 'The model is that of sugar, for -ln(acid in g/L) and for pH, with rates of their own.',
    units: 'dates',
    choices: 'Acid falls by 2 % a day at 9 g/L. pH rises by 0.012 a day at pH 3.1 (own choice, no source).',
    own: 'as for chance',
  },
  {
    name: 'conflicts',
    keys: ['window.blocks.conflicts'],
    what: 'What conflicts with the window: picking not allowed yet, or not known from when. A sample that is riper than veraison noted after it. Also that part of the block is picked; the window is then that of the rest.',
    own: 'own rules over the figures named',
  },
  {
    name: 'last-sprays',
    keys: ['window.blocks.lastSprays'],
    what: 'Which recorded products you may apply on the day of the report and still pick when the window opens.',
    formula:
      'A spray is in time if day of spraying + PHI + 1 is not after that day. This is the cautious reading.',
    units: 'product ids',
    limits:
      'The longest pre-harvest interval (PHI) of a product counts, whatever the target. It is given up to 60 days ahead (our choice).',
    own: 'the labels, as the records hold them; `cover` tells the same for the day on which the next spray is due',
  },
  {
    name: 'window-detail',
    keys: under('window.blocks', 'targetSource legalFromCalendar picked why'),
    what: 'Where the target comes from. `picked` is the day of the last pick, once nothing hangs. Also the first day of picking if the day of spraying counts as day 0.',
    own: 'the records named',
  },
  {
    name: 'backtest',
    keys: ['window.backtest'],
    what: 'How windows would have come out in past seasons. It gives the likely day minus the day of picking, and how often the interval held it.',
    formula: 'Each window is calculated again so many days before each pick, with what was recorded by then.',
    units: 'days; shares',
    limits: 'A pick is not the day on which sugar reached its target. Both comparisons are given.',
    own: 'the recorded picks',
  },
])
