import { figures, under } from '../../facts/figure.ts'
import { stageList } from '../../records/growth-stage.ts'

/** What `explain` says of the figures of `note`. */
export const FIGURES = figures('the records', [
  {
    name: 'next-application',
    topic: 'law and resistance',
    keys: ['note.follows.next'],
    what: "The first day on which the label's shortest interval allows the product again.",
    formula: 'next = day of spraying + shortest interval. Part of a day counts as a whole day.',
    units: 'date',
    own: "your label, as copied into the product's record",
  },
  {
    name: 'stage',
    keys: [],
    what: `Growth stages can be written as BBCH numbers, as E-L numbers (\`E-L 25\`), or in words: ${stageList()}; shares like \`50 % veraison\` or \`80 % capfall\`; \`6 leaves\`.`,
    choices: 'Which E-L stage matches which BBCH stage is from memory. 50 % veraison is taken as BBCH 83.',
    memory: 'Lorenz et al. 1995, Aust. J. Grape Wine Res. 1:100-103; Coombe 1995, the same 1:104-110',
  },
  {
    name: 'note-entry',
    keys: [
      ...under('note', 'file entry text open beside written'),
      ...under('note.follows', 'timed missing'),
    ],
    what: "The file that an entry was written to, and the entry in the program's own units. The file holds what you typed.",
    own: 'own',
  },
])
