import type { Figure } from './figure.ts'

const topic = 'the book'

export const BOOK: readonly Figure[] = [
  {
    name: 'check-counts',
    topic,
    keys: [
      'check.files',
      'check.records',
      'check.records.weatherRows',
      'check.errors',
      'check.warnings',
      'check.hints',
    ],
    what: 'Files read, sound records of each kind, and findings by level. An error leaves its record out of every report; a warning asks for a look; a hint is a matter of taste.',
    source: 'own counts',
    basis: 'own',
  },
  {
    name: 'note-entry',
    topic,
    keys: ['note.file', 'note.entry'],
    what: 'The file that an entry was written to, and the entry in the units of the program. What stands in the file is as it was typed.',
    source: 'own',
    basis: 'own',
  },
]
