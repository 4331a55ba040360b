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
    what: 'Files read, sound records of each kind, and findings by level. An error leaves its record out of every report; a warning asks for a look; a hint is a matter of taste.',
  },
]
