import type { Figure } from './figure.ts'

const topic = 'the book'
const own = { topic, source: 'own', basis: 'own' } as const

export const BOOK: readonly Figure[] = [
  {
    ...own,
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
    source: 'own counts',
  },
  {
    ...own,
    name: 'note-entry',
    keys: [
      'note.file',
      'note.entry',
      'note.text',
      'note.written',
      'note.follows.timed',
      'note.follows.missing',
    ],
    what: 'The file that an entry was written to, and the entry in the units of the program. What stands in the file is as it was typed.',
  },
  {
    name: 'due-items',
    topic,
    keys: ['today.items'],
    what: 'What is due on a day, or holds on it, most urgent first: until when nobody may enter, what check complains of, cover, pressure, windows, walks, samples, stages, last sprays before harvest and stock.',
    formula:
      'now: people may not enter, an error stands in the book, a gap under high pressure, a window is open; soon: cover ends within 3 days, a gap under moderate pressure, a window opens within 7 days, a look is overdue by more than its interval; plan: the rest',
    limits:
      'walks every 14 days from budburst and every 7 from flowering to set; samples every 7 days from stage 83; stages every 14 days; a pick is asked for 14 days after a window',
    choices: 'the days ahead and the order are our own; people come before vines',
    source:
      'walks: AWRI viti-note (undated); samples: Bradshaw 2018, University of Vermont; stages: common practice, no source',
    basis: 'read',
  },
  {
    ...own,
    name: 'calendar-events',
    keys: ['calendar.events', 'calendar.missing'],
    what: 'Events of the calendar file: until when to keep out, first day of picking, last day of cover, windows. Their ids come from what they are about, so that a later import updates them.',
    limits: 'what the records do not say is told beside the file and is no event',
    source: 'form: RFC 5545, 2009; the dates are those of ready, cover and window',
  },
  {
    ...own,
    name: 'imported-rows',
    keys: ['import.entries', 'import.unused', 'import.written', 'import.kind', 'import.from'],
    what: 'Entries that the rows of a spreadsheet come to, with the lines that each was read from, and the columns from which nothing is read.',
    limits: 'a cell that is not understood stops all of it',
  },
  {
    ...own,
    name: 'book-changes',
    keys: [
      'changes.from',
      'changes.to',
      'changes.added',
      'changes.removed',
      'changes.corrected',
      'changes.unread',
      'changes.effects',
      'changes.why',
    ],
    what: 'Entries added, removed and corrected between two states of the book in git, and what that did to figures and findings.',
    formula:
      'entries are matched by kind, date, block and how alike they are; figures are worked out in both states',
    limits: 'a spray changed more than 30 days after its date is called late; the 30 days are our own',
  },
  {
    ...own,
    name: 'season-comparison',
    keys: ['compare.seasons', 'compare.upTo', 'compare.figures'],
    what: 'The figures of seasons side by side, each up to the same day of its year, those that changed most first.',
    formula: 'change = newest - one before; order by the size of the change against the larger of the two',
    limits: 'a figure that a season does not have says why',
    source: 'the figures of the other reports',
  },
  {
    ...own,
    name: 'label-state',
    keys: ['label.products', 'label.lapsed', 'label.lapsing', 'label.old', 'label.incomplete'],
    what: 'Which labels to read again: authorisation over or nearly so, last read long ago, or figures missing in the record.',
    formula: 'days left = last day of authorisation - day of the report',
    units: 'days; counts',
    source: "the products' records, as copied from the labels",
  },
  {
    name: 'spray-record',
    topic,
    keys: [
      'diary.form',
      'diary.vineyard',
      'diary.from',
      'diary.to',
      'diary.rules',
      'diary.fields',
      'diary.rows',
      'diary.complete',
      'diary.keep',
      'diary.gaps',
      'diary.missing',
    ],
    what: 'The record of sprays by the form asked for: one row for each spray, block and product, with what the form wants and the book lacks.',
    formula:
      'dose, water and total as in mix; first day of picking by the cautious reading; re-entry in elapsed hours',
    limits: 'says of each form which text it was made from and how far that was read; your authority decides',
    source:
      'Regulation (EC) 1107/2009, Article 67; Implementing Regulation (EU) 2023/564; the other texts are named with each form',
    basis: 'read',
  },
]
