import { figures, under } from '../../facts/figure.ts'

/** What `explain` says of the figures of `diary`. */
export const FIGURES = figures('the records', [
  {
    name: 'spray-record',
    keys: under('diary', 'form vineyard from to rules fields rows complete keep gaps missing'),
    what: 'The spray record in the form you choose: one row for each spray, block and product. It holds what the form needs, and says what is missing.',
    formula:
      'Dose, water and total are calculated as in `mix`. The first day of picking is the cautious reading. Re-entry is in hours that pass, clock changes included.',
    limits:
      'Each form names the text that it was made from, and how much of it was read. Your authority decides.',
    'second-hand':
      'Implementing Regulation (EU) 2023/564: recitals and articles read, its annex second-hand, read on pages of plant protection services of German states; Regulation (EC) 1107/2009, Article 67, second-hand, read in a recital of the former; the other texts are named with each form',
  },
])
