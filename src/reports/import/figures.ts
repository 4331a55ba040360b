import type { Figure } from '../../facts/figure.ts'

/** What `explain` says of the figures of `import`. */
export const FIGURES: readonly Figure[] = [
  {
    topic: 'the book',
    source: 'own',
    basis: 'own',
    name: 'imported-rows',
    keys: ['import.entries', 'import.unused', 'import.written', 'import.kind', 'import.from'],
    what: 'Entries that the rows of a spreadsheet come to, with the lines that each was read from, and the columns from which nothing is read.',
    limits: 'a cell that is not understood stops all of it',
  },
]
