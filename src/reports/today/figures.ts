import type { Figure } from '../../facts/figure.ts'

/** What `explain` says of the figures of `today`. */
export const FIGURES: readonly Figure[] = [
  {
    name: 'due-items',
    topic: 'the records',
    keys: ['today.items', 'today.station'],
    what: 'What is due on a day, or holds on it, most urgent first: finds of scouting, until when nobody may enter, what check finds, protection, danger, windows, scouting rounds, samples, stages, last sprays before harvest and stock.',
    formula:
      'now: a find that nothing was sprayed against, people may not enter, an error stands in the records, no protection in high danger, a window is open; soon: protection ends within 3 days, no protection in moderate or unknown danger, symptoms are due, a window opens within 7 days, a look is overdue by more than its interval; plan: the rest',
    limits:
      'scouting rounds every 14 days from budburst and every 7 from flowering to set; samples every 7 days from stage 83; stages every 14 days; a missing pick is told 14 days after a window',
    choices:
      'the days ahead and the order are our own; of more than five lines, those of one job become one, with all its commands: looking in the rows, picking, what waits, sprays of the next days, one disease, one block; products that do not go into one tank each get a command; low danger is not told; nothing is to be sprayed once the sugar target may be reached',
    source:
      'scouting: AWRI viti-note, year not known; samples: Bradshaw 2018, University of Vermont; stages: common practice, no source',
    basis: 'common practice',
  },
]
