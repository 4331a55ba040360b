import type { Figure } from '../../facts/figure.ts'

/** What `explain` says of the figures of `today`. */
export const FIGURES: readonly Figure[] = [
  {
    name: 'due-items',
    topic: 'the book',
    keys: ['today.items'],
    what: 'What is due on a day, or holds on it, most urgent first: until when nobody may enter, what check complains of, cover, pressure, windows, walks, samples, stages, last sprays before harvest and stock.',
    formula:
      'now: people may not enter, an error stands in the book, a gap under high pressure, a window is open; soon: cover ends within 3 days, a gap under moderate pressure, a window opens within 7 days, a look is overdue by more than its interval; plan: the rest',
    limits:
      'walks every 14 days from budburst and every 7 from flowering to set; samples every 7 days from stage 83; stages every 14 days; a pick is asked for 14 days after a window',
    choices: 'the days ahead and the order are our own; people come before vines',
    source:
      'walks: AWRI viti-note (undated); samples: Bradshaw 2018, University of Vermont; stages: common practice, no source',
    basis: 'read',
  },
]
