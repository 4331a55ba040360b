import { figures, under } from '../../facts/figure.ts'

/** What `explain` says of the figures of `sheet`. */
export const FIGURES = figures('the records', [
  {
    name: 'sheet-size',
    keys: [
      ...under('sheet.blocks', 'wanted next leavesOut lines last stops vines rows columns once typeIn'),
      ...under('sheet', 'seed again'),
    ],
    what: 'A sheet to fill in among the vines. It says how many to look at for the precision you want, and which vines, drawn at random.',
    formula:
      'A sheet has as many rows as `scouting`, `ripeness` and `crop` need. Vines are drawn by SHA-256 of seed, block and number of the draw, modulo the vines planted.',
    units: 'counts; row and vine from 1',
    choices:
      'These are common practice, without a source: five bunches or leaves a vine; ten vines a bag; 20 vines for a first count.',
    memory:
      'sample sizes as in `rowbook explain incidence`, `brix-interval` and `crop-estimate`; five bags of 100 berries: Fiola, University of Maryland Extension, year not known; SHA-256: NIST, FIPS 180-4, 2015, from memory',
    limits: 'Bunches and leaves of one vine are alike. So they tell less than as many from different vines.',
  },
])
