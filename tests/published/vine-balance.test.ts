import { describe, expect, test } from 'vitest'
import { blockArea } from '../../src/agronomy/crop/area.ts'
import { ravazIndex } from '../../src/agronomy/crop/ravaz-index.ts'
import { vinesToCount } from '../../src/agronomy/crop/vines-to-count.ts'
import { convert } from '../../src/records/units.ts'
import { type PublishedRow, published } from './rows.ts'

/** Check values on pruning, rows and units. */

const KLIEWER = 'Kliewer & Dokoozlian 2005, AJEV, table 4: Oakville 1992, single canopy'

// Printed to one decimal.
const OAKVILLE = [
  [9.8, 1.3, 7.5],
  [20.2, 1.53, 13.2],
  [15.9, 0.29, 54.8],
] as const

const row = (
  [id, source, basis]: [string, string, PublishedRow['basis']],
  got: PublishedRow['got'],
  [want, within]: [PublishedRow['want'], number?],
): PublishedRow => ({ id, source, basis, got, want, within })

const POUND = 0.45359237

describe('pruning and crop load', () => {
  published([
    ...OAKVILLE.map(([fruit, prunings, index]) =>
      row([`${fruit} kg over ${prunings} kg`, KLIEWER, 'read'], () => ravazIndex({ fruit, prunings }), [
        index,
        0.051,
      ]),
    ),
    row(
      [
        '25 clusters of 0.40 lb over 1 lb of prunings',
        'Purdue University, Facts for Fancy Fruit, year not known',
        'read',
      ],
      () => ravazIndex({ fruit: 25 * 0.4 * POUND, prunings: POUND }),
      [10, 1e-9],
    ),
  ])
})

describe('rows, heat and units', () => {
  const LODI = 'lodigrowers.com, year not known, rows 12 ft apart'
  const feet = (length: number) => convert(length, 'ft', 'm')
  const acres = (rowFeet: number) =>
    convert(blockArea({ rows: 1, rowLength: feet(rowFeet), rowSpacing: feet(12) }), 'ha', 'acre')
  published([
    row(['feet of row in an acre', LODI, 'read'], () => 1000 / acres(1000), [3630, 0.5]),
    row(
      ['oz on 1000 ft of row at 0.75 lb an acre', LODI, 'read'],
      () => acres(1000) * 0.75 * 16,
      [3.3, 0.051],
    ),
    row(
      [
        '175 US gal a US ton, L a tonne',
        'Home Winemaking For Dummies, table on dummies.com, year not known',
        'read',
      ],
      () => convert(175, 'US gal', 'L') / convert(1, 'US ton', 't'),
      [730, 0.5],
    ),
    ...(
      [
        ['US ton', 't', 'acre', 'ha', 2.2417],
        ['lb', 'kg', 'ft', 'm', 1.48816],
        ['US gal', 'L', 'US ton', 't', 4.1727],
      ] as const
    ).map(([of, to, per, by, want]) =>
      row(
        [`1 ${of}/${per}`, 'legal definitions of the units of 1959, worked out here', 'derived'],
        () => convert(1, of, to) / convert(1, per, by),
        [want, 5.1e-5],
      ),
    ),
  ])
  test('260 of 800 vines (Washington State University) is the size for a share, not for a mean of counts', () => {
    const [vines, chi, share, error] = [800, 3.841, 0.5, 0.05]
    const spread = chi * share * (1 - share)
    expect(Math.ceil((spread * vines) / (error ** 2 * (vines - 1) + spread))).toBe(260)
    // At the 30 % by which bunches per vine vary, the mean to 5 % takes not half as many.
    expect(vinesToCount({ cv: 0.3, error, vines })!.needed).toBeLessThan(125)
  })
})
