import { figures } from '../../facts/figure.ts'

/** What `explain` says of the figures of `compare`. */
export const FIGURES = figures('the records', [
  {
    name: 'season-comparison',
    keys: ['compare.seasons', 'compare.upTo', 'compare.figures'],
    what: 'Seasons side by side, each up to the same day of its year. The biggest changes come first.',
    formula:
      'change = newest season - the season before. Changes are sorted by their share of the larger of the two figures.',
    limits: 'Where a season lacks a figure, the report says why.',
    own: 'the figures of the other reports',
  },
])
