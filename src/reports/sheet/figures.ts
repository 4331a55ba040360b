import type { Figure } from '../../facts/figure.ts'

/** What `explain` says of the figures of `sheet`. */
export const FIGURES: readonly Figure[] = [
  {
    name: 'sheet-size',
    topic: 'the records',
    keys: [
      'sheet.blocks.wanted',
      'sheet.blocks.leavesOut',
      'sheet.blocks.lines',
      'sheet.blocks.last',
      'sheet.blocks.stops',
      'sheet.blocks.vines',
      'sheet.blocks.rows',
      'sheet.blocks.columns',
      'sheet.blocks.once',
      'sheet.blocks.typeIn',
      'sheet.seed',
      'sheet.again',
    ],
    what: 'A sheet to fill in among the vines. It says how many to look at for the precision you want, and which vines, drawn at random.',
    formula:
      'as many as `scouting`, `ripeness` and `crop` need; vines by SHA-256 of seed, block and number of the draw, modulo the vines planted',
    units: 'counts; row and vine from 1',
    choices:
      'five bunches or leaves a vine, ten vines a bag, 20 vines for a first count: common practice, no source',
    source:
      'sample sizes as in `rowbook explain incidence`, `brix-interval` and `crop-estimate`; five bags of 100 berries: Fiola, University of Maryland Extension, year not known; SHA-256: NIST, FIPS 180-4, 2015, from memory',
    limits: 'bunches and leaves of one vine are alike, so they tell less than as many from different vines',
    basis: 'memory',
  },
]
