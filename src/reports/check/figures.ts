import { figures, under } from '../../facts/figure.ts'

/** What `explain` says of the figures of `check`. */
export const FIGURES = figures('the records', [
  {
    name: 'check-counts',
    keys: [
      ...under('check', 'files records'),
      'check.records.weatherRows',
      ...under('check', 'errors warnings hints'),
    ],
    what: 'Files read, valid records of each kind, and findings by level. A record with an error is left out of every report. A warning asks you to look. A hint is a matter of judgement.',
    own: 'own counts',
  },
])
