import { figures } from '../../facts/figure.ts'

/** What `explain` says of the figures of `today`. */
export const FIGURES = figures('the records', [
  {
    name: 'due-items',
    keys: ['today.items', 'today.station'],
    what: 'What is due or in force on a day, most urgent first. That is scouting finds, re-entry intervals, errors in the records, protection, danger and windows. Then scouting rounds, samples, stages, last sprays before harvest, and stock.',
    formula:
      'Now: a find that was not treated; a re-entry interval; an error in the records; no protection in high danger; an open window. Soon: protection that ends within 3 days; no protection in moderate or unknown danger; forecast rain that may bring downy to unprotected vines, or washes a spray off; symptoms expected; a window that opens within 7 days, or rot for which `ready` advises to pick; a round or sample overdue by more than its interval. Plan: the rest.',
    limits:
      'A scouting round is due after 14 days from budburst, and after 7 from flowering to fruit set. A sample is due after 7 days from stage 83, a stage after 14 days. A missing pick is reported 14 days after the window.',
    choices:
      'The days ahead and the order are our own choice. Where there are more than five lines, those of one job become one, with all its commands. The jobs are: looking in the rows; picking; what waits; sprays of the next days; one disease; one block. Products that do not go into one tank each get a command. Low danger is not listed, but disease found at the end of last season is. No spray is suggested once the sugar target may be reached.',
    'common practice':
      'scouting: AWRI viti-note, year not known; samples: Bradshaw 2018, University of Vermont; stages: common practice, no source',
  },
])
