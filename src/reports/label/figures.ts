import { figures } from '../../facts/figure.ts'

/** What `explain` says of the figures of `label`. */
export const FIGURES = figures('the records', [
  {
    name: 'label-state',
    keys: ['label.products', 'label.lapsed', 'label.lapsing', 'label.old', 'label.incomplete'],
    what: 'Which labels to re-read: authorisation ended or ending soon, last read long ago, or figures missing from the record.',
    formula: 'days left = last day of authorisation - day of the report',
    units: 'days; counts',
    own: "the products' records, as copied from the labels",
  },
])
