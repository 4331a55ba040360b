import type { Figure } from '../../facts/figure.ts'

/** What `explain` says of the figures of `note`. */
export const FIGURES: readonly Figure[] = [
  {
    name: 'next-application',
    topic: 'law and resistance',
    keys: ['note.follows.next'],
    what: 'The first day on which a product may be used again by the shortest interval of its label.',
    formula: 'day of spraying + shortest interval, a part of a day counting as a whole one',
    units: 'date',
    source: "the label, as copied into the product's record",
    basis: 'read',
  },
  {
    topic: 'the book',
    source: 'own',
    basis: 'own',
    name: 'note-entry',
    keys: [
      'note.file',
      'note.entry',
      'note.text',
      'note.written',
      'note.follows.timed',
      'note.follows.missing',
    ],
    what: 'The file that an entry was written to, and the entry in the units of the program. What stands in the file is as it was typed.',
  },
]
