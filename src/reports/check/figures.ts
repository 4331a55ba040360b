import type { Figure } from '../../facts/figure.ts'

/** What `explain` says of the figures of `check`. */
export const FIGURES: readonly Figure[] = [
  {
    topic: 'the records',
    source: 'own counts',
    basis: 'own',
    name: 'check-counts',
    keys: [
      'check.files',
      'check.records',
      'check.records.weatherRows',
      'check.errors',
      'check.warnings',
      'check.hints',
    ],
    what: 'Files read, valid records of each kind, and findings by level. A record with an error is left out of every report. A warning asks you to look. A hint is a matter of judgement.',
  },
]
