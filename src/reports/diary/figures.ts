import type { Figure } from '../../facts/figure.ts'

/** What `explain` says of the figures of `diary`. */
export const FIGURES: readonly Figure[] = [
  {
    name: 'spray-record',
    topic: 'the records',
    keys: [
      'diary.form',
      'diary.vineyard',
      'diary.from',
      'diary.to',
      'diary.rules',
      'diary.fields',
      'diary.rows',
      'diary.complete',
      'diary.keep',
      'diary.gaps',
      'diary.missing',
    ],
    what: 'The record of sprays by the form asked for: one row for each spray, block and product, with what the form asks for and the records lack.',
    formula:
      'dose, water and total as in mix; first day of picking by the cautious reading; re-entry in elapsed hours',
    limits: 'says of each form which text it was made from and how far that was read; your authority decides',
    source:
      'Implementing Regulation (EU) 2023/564: recitals and articles read, its annex second-hand, read on pages of plant protection services of German states; Regulation (EC) 1107/2009, Article 67, second-hand, read in a recital of the former; the other texts are named with each form',
    basis: 'second-hand',
  },
]
