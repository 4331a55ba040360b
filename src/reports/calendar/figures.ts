import { figures } from '../../facts/figure.ts'

/** What `explain` says of the figures of `calendar`. */
export const FIGURES = figures('the records', [
  {
    name: 'calendar-events',
    keys: ['calendar.events', 'calendar.missing'],
    what: 'Events of the calendar file: end of the re-entry interval (REI), first day of picking, last day of protection, windows. Each event keeps its id, so a later import updates it.',
    limits: 'What is missing from the records is listed beside the file. It makes no event.',
    own: 'form: RFC 5545, 2009; the dates are those of ready, cover and window',
  },
])
