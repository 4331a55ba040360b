import { figures } from '../../facts/figure.ts'

/** What `explain` says of the figures of `import`. */
export const FIGURES = figures('the records', [
  {
    name: 'imported-rows',
    keys: ['import.entries', 'import.unused', 'import.written', 'import.kind', 'import.from'],
    what: 'Entries made from the rows of a spreadsheet, with the lines of each. Also the columns that were not read.',
    limits: 'One cell that is not understood stops the whole import.',
    own: 'own',
  },
  {
    name: 'imported-weather',
    keys: ['import.read', 'import.seasons'],
    what: "How a station's export was read: its columns, rows, gaps and extremes, and what it adds to each season. Rows shorter than an hour are combined into hours. Temperature, humidity and wind are means of at least three quarters of the hour's readings. Rain and leaf wetness are sums of all of them.",
    choices:
      'Three quarters of the readings make a mean. An hour that the file holds only in part waits for the next export. Of two rows with the same time, the first is taken. The hour that the clocks show twice is kept.',
    limits: 'A reading that is already there is never changed. Those that differ are listed.',
    own: 'own',
  },
])
