import { vinesPerHa } from '../../src/agronomy/crop/area.ts'
import { sugarPerBerry } from '../../src/agronomy/ripening/sugar-per-berry.ts'
import { reEntryEnd } from '../../src/facts/spraying/re-entry.ts'
import { daysBetween } from '../../src/records/date.ts'
import { nearestStage } from '../../src/records/growth-stage.ts'
import { convert } from '../../src/records/units.ts'
import { published } from './rows.ts'

/** Vines on an acre at a spacing in feet, vine by row. */
const vinesPerAcre = (vine: number, row: number) =>
  vinesPerHa({ rowSpacing: convert(row, 'ft', 'm'), vineSpacing: convert(vine, 'ft', 'm') }) *
  convert(1, 'acre', 'ha')

const DENSITY = [
  [
    'the example',
    3,
    7,
    2074,
    'British Columbia best practices guide for grapes, year not known, planting density',
  ],
  [
    'the example',
    4,
    8,
    1361,
    'British Columbia best practices guide for grapes, year not known, planting density',
  ],
  [
    'the example',
    4,
    9,
    1210,
    'British Columbia best practices guide for grapes, year not known, planting density',
  ],
  [
    'the example',
    6,
    9,
    807,
    'British Columbia best practices guide for grapes, year not known; Dami, Ohio State',
  ],
  ['the example', 8, 9, 605, 'wine-grape-growing.com, chapter 30, year not known'],
] as const

published([
  // Printed as whole vines.
  ...DENSITY.map(([id, vine, row, want, source]) => ({
    ...{ id: `crop ${id}, ${vine} x ${row} ft`, source, basis: 'read' as const, want, within: 0.5 },
    got: () => vinesPerAcre(vine, row),
  })),
  {
    ...{ id: 'captan: 48 h to re-entry', basis: 'read', want: 2 },
    source: 'Nita 2012, Virginia Tech: captan, sprayed on day 0',
    got: () =>
      daysBetween(
        '2012-06-01',
        reEntryEnd({ date: '2012-06-01', time: { start: 0, end: 480 } }, [{ id: 'captan', re_entry: 48 }], {
          zone: 'America/New_York',
        })!.date,
      ),
  },
  {
    ...{ id: 'mg of sugar in a berry of 1.25 g at 20.0 Brix', basis: 'read', want: 250 },
    source: 'Deloire, year not known, in Wines & Vines: mass x Brix / 100 x 1000',
    got: () => sugarPerBerry(1.25, 20),
  },
  {
    ...{ id: 'stages in their order', basis: 'second-hand', want: '9 11 53 60 71 81 89' },
    source:
      'Lorenz et al. 1995, Aust. J. Grape Wine Res. 1:100-103, BBCH scale of the grapevine, as given by an encyclopedia',
    got: () => [9, 11, 53, 60, 71, 81, 89].map((stage) => nearestStage(stage)).join(' '),
  },
])
