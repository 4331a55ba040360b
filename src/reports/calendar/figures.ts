import type { Figure } from '../../facts/figure.ts'

/** What `explain` says of the figures of `calendar`. */
export const FIGURES: readonly Figure[] = [
  {
    topic: 'the records',
    source: 'form: RFC 5545, 2009; the dates are those of ready, cover and window',
    basis: 'own',
    name: 'calendar-events',
    keys: ['calendar.events', 'calendar.missing'],
    what: 'Events of the calendar file: end of the re-entry interval (REI), first day of picking, last day of protection, windows. Their ids come from what they are about, so that a later import updates them.',
    limits: 'what the records lack is listed beside the file and is no event',
  },
]
