import type { Figure } from '../../facts/figure.ts'

/** What `explain` says of the figures of `import`. */
export const FIGURES: readonly Figure[] = [
  {
    topic: 'the records',
    source: 'own',
    basis: 'own',
    name: 'imported-rows',
    keys: ['import.entries', 'import.unused', 'import.written', 'import.kind', 'import.from'],
    what: 'Entries that the rows of a spreadsheet come to, with the lines that each was read from, and the columns from which nothing is read.',
    limits: 'a cell that is not understood stops all of it',
  },
  {
    topic: 'the records',
    source: 'own',
    basis: 'own',
    name: 'imported-weather',
    keys: ['import.read', 'import.seasons'],
    what: "What a station's export was read as: its columns, rows, gaps and extremes, and what it adds to each season. Rows of less than an hour are brought to hours: temperature, humidity and wind as means of at least three quarters of the readings of the hour, rain and leaf wetness as sums of all of them.",
    choices:
      'three quarters of the readings make a mean; an hour that the file holds in part is left for the next export',
    limits: 'a reading that stands is never changed: those that differ are listed',
  },
]
