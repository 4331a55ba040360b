import { figures, under } from '../../facts/figure.ts'

/** What `explain` says of the figures of `changes`. */
export const FIGURES = figures('the records', [
  {
    source: 'own',
    basis: 'own',
    name: 'record-changes',
    keys: under('changes', 'from to added removed corrected unread effects why'),
    what: 'Entries added, removed and corrected between two states of the ledger in git. Also how that changed figures and findings.',
    formula: 'entries are matched by kind, date, block and similarity; figures are calculated in both states',
    limits: 'a spray changed more than 30 days after its date is called late; the 30 days are our own choice',
  },
])
