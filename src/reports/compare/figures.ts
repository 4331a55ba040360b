import type { Figure } from '../../facts/figure.ts'

/** What `explain` says of the figures of `compare`. */
export const FIGURES: readonly Figure[] = [
  {
    topic: 'the book',
    source: 'the figures of the other reports',
    basis: 'own',
    name: 'season-comparison',
    keys: ['compare.seasons', 'compare.upTo', 'compare.figures'],
    what: 'The figures of seasons side by side, each up to the same day of its year, those that changed most first.',
    formula: 'change = newest - one before; order by the size of the change against the larger of the two',
    limits: 'a figure that a season does not have says why',
  },
]
