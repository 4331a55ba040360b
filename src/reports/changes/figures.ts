import { figures, under } from '../../facts/figure.ts'

/** What `explain` says of the figures of `changes`. */
export const FIGURES = figures('the records', [
  {
    name: 'record-changes',
    keys: under('changes', 'from to added removed corrected unread effects why'),
    what: 'Entries added, removed and corrected between two states of the ledger in git. Also how that changed figures and findings.',
    formula:
      'Entries are matched by kind, date, block and similarity. Figures are calculated before and after, from all records of that time.',
    limits:
      'A spray changed more than 30 days after its date is called late. The 30 days are our own choice.',
    own: 'own',
  },
])
