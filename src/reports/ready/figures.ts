import { ESTIMATE, type Figure } from '../../facts/figure.ts'

/** What `explain` says of the figures of `ready`. */
export const FIGURES: readonly Figure[] = [
  {
    name: 're-entry',
    topic: 'spraying',
    keys: ['ready.blocks.gates.until', 'note.follows.reEntry'],
    what: 'When people may enter a sprayed block again: the longest re-entry time of the products, in hours that pass from the end of spraying.',
    formula: 'end of spraying + hours, across changes of the clock',
    units: 'local time with offset',
    limits: 'without an end time it counts from the end of the day',
    source: '40 CFR 170.112 (2007 text); the times are those of the label',
    basis: 'read',
  },
  {
    name: 'ready-gates',
    topic: 'when to pick',
    keys: ['ready.blocks.verdict', 'ready.blocks.gates.state', 'ready.blocks.gates.detail'],
    what: 'The word to pick: records, days before harvest, re-entry, disease, sugar, acid and crop, each passed, to wait for, failed or unknown.',
    formula:
      'stop where a gate fails, or where records, days before harvest, re-entry or disease are unknown; ready where all pass; wait otherwise',
    limits: 'an unknown gate is never a pass',
    choices:
      'acid asks for both acid and pH, or for those that the records name a range of; a disease noted without a count is unknown; disease thresholds are those of the block or the site; without, 3 % for powdery mildew and botrytis, 5 % for others',
    source:
      'powdery mildew from 3 %: Gubler, University of California (undated); botrytis from 3 to 5 % (from memory); the other thresholds common practice, no source',
    basis: 'memory',
  },
  {
    name: 'gate-detail',
    topic: 'when to pick',
    keys: [
      'ready.blocks.gates',
      'ready.blocks.turns',
      'ready.blocks.todo',
      'ready.blocks.rain',
      'ready.blocks.pressure',
      'ready.blocks.picked',
      'ready.blocks.conflicts',
      'ready.blocks.forecast',
    ],
    what: 'When a gate that says wait is likely to turn, what to do for it, how likely sugar is at its target now, and what rain and disease did of late.',
    limits: ESTIMATE,
    source: 'the figures of window, crop, scouting and pressure',
    basis: 'own',
  },
]
