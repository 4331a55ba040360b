import { describe, expect, test } from 'vitest'
import { blockArea } from '../../src/agronomy/crop/area.ts'
import { budsToLeave } from '../../src/agronomy/crop/balanced-pruning.ts'
import { frostCrop } from '../../src/agronomy/crop/frost-crop.ts'
import { type FrostStage, frostKill } from '../../src/agronomy/crop/frost-kill.ts'
import { pointQuadrat } from '../../src/agronomy/crop/point-quadrat.ts'
import { ravazIndex } from '../../src/agronomy/crop/ravaz-index.ts'
import { vinesToCount } from '../../src/agronomy/crop/vines-to-count.ts'
import { coolingHeat } from '../../src/agronomy/heat/cooling-heat.ts'
import { eichhornLorenz } from '../../src/agronomy/heat/eichhorn-lorenz.ts'
import { leafToFruit, sugarByLeaf } from '../../src/agronomy/ripening/leaf-fruit-sugar.ts'
import { convert } from '../../src/records/units.ts'
import { type PublishedRow, published } from './rows.ts'

/** Check values of references/crop.md section 10 on pruning, frost, canopy, rows and units. */

const KLIEWER = 'Kliewer & Dokoozlian 2005, AJEV, table 4: Oakville 1992, single canopy'

// Printed to one and two decimals; the second leaf area is 1.178 and printed as 1.17.
const OAKVILLE = [
  [9.8, 1.3, 7.5, 16.2, 1.65, 0.005],
  [20.2, 1.53, 13.2, 23.8, 1.17, 0.009],
  [15.9, 0.29, 54.8, 20.1, 1.26, 0.005],
] as const

const row = (
  [id, source, basis]: [string, string, PublishedRow['basis']],
  got: PublishedRow['got'],
  [want, within]: [PublishedRow['want'], number?],
): PublishedRow => ({ id, source, basis, got, want, within })

const POUND = 0.45359237

describe('pruning and crop load', () => {
  published([
    ...OAKVILLE.flatMap(([fruit, prunings, index, leafArea, perKg, within]) => [
      row([`S5 ${fruit} kg over ${prunings} kg`, KLIEWER, 'read'], () => ravazIndex({ fruit, prunings }), [
        index,
        0.051,
      ]),
      row(
        [`S5 m² of leaf a kg, ${leafArea} over ${fruit}`, KLIEWER, 'read'],
        () => leafToFruit({ leafArea, fruit }) / 10,
        [perKg, within],
      ),
    ]),
    row(
      ['S6 25 clusters of 0.40 lb over 1 lb of prunings', 'Purdue University, Facts for Fancy Fruit', 'read'],
      () => ravazIndex({ fruit: 25 * 0.4 * POUND, prunings: POUND }),
      [10, 1e-9],
    ),
    row(
      ['S8 30 + 10, 4 lb of prunings', 'Fiola, Univ. Maryland (method); a gardening page (figure)', 'read'],
      () => budsToLeave({ prunings: 4 * POUND, first: 30, further: 10 }),
      [60, 1e-9],
    ),
    ...(
      [
        [5, 11],
        [10, 15.5],
        [15, 17],
      ] as const
    ).map(([leaf, sugar]) =>
      row([`S31 ${leaf} cm² a g`, 'Martinson, Cornell: 20 - 45 / x', 'derived'], () => sugarByLeaf(leaf), [
        sugar,
        1e-9,
      ]),
    ),
  ])
  test('balanced pruning stops at its most, and less than a pound asks for less than the first buds', () => {
    expect(budsToLeave({ prunings: 4 * POUND, first: 30, further: 10, most: 50 })).toBe(50)
    expect(budsToLeave({ prunings: POUND / 2, first: 30, further: 10 })).toBeCloseTo(15, 9)
    expect(() => budsToLeave({ prunings: -1, first: 30, further: 10 })).toThrow(RangeError)
    expect(() => ravazIndex({ fruit: 3, prunings: 0 })).toThrow(RangeError)
  })
})

describe('frost', () => {
  const count = { nodes: 60, blind: 6, primaryKilled: 30, secondaryKilled: 10 }
  const HOWELL = 'Howell, Michigan State (grapes.extension.org): weights 1 and 0.35'
  const FAO = 'Snyder & de Melo-Abreu 2005 (FAO), table 4.8, Concord'
  // Both ends of each stage, and a tenth of a degree to the warm side of them.
  const TABLE: [FrostStage, number, number][] = [
    ['first swell', -10.6, -19.4],
    ['late swell', -6.1, -12.2],
    ['bud burst', -3.9, -8.9],
    ['first leaf', -2.8, -6.1],
    ['second leaf', -2.2, -5.6],
    ['third leaf', -2.2, -3.3],
    ['fourth leaf', -2.2, -2.8],
  ]
  published([
    row(['S26 nodes left', HOWELL, 'derived'], () => frostCrop(count).nodes, [31, 1e-9]),
    row(['S26 of all nodes, %', HOWELL, 'derived'], () => frostCrop(count).ofAll * 100, [51.7, 0.051]),
    row(['S26 of live nodes, %', HOWELL, 'derived'], () => frostCrop(count).ofLive * 100, [57.4, 0.051]),
    row(['S30 first leaf at -3.0 °C', FAO, 'derived'], () => frostKill('first leaf', -3), ['10 to 90 %']),
    row(['S30 second leaf at -2.0 °C', FAO, 'derived'], () => frostKill('second leaf', -2), ['under 10 %']),
    ...TABLE.flatMap(([stage, tenth, most]) => [
      row([`${stage}: a tenth killed`, FAO, 'read'], () => frostKill(stage, tenth), ['10 to 90 %']),
      row([`${stage}: not yet`, FAO, 'read'], () => frostKill(stage, tenth + 0.1), ['under 10 %']),
      row([`${stage}: nine tenths killed`, FAO, 'read'], () => frostKill(stage, most), ['90 % and more']),
      row([`${stage}: not quite`, FAO, 'read'], () => frostKill(stage, most + 0.1), ['10 to 90 %']),
    ]),
  ])
  test('counts that contradict each other are refused', () => {
    expect(() => frostCrop({ ...count, primaryKilled: 55 })).toThrow(RangeError)
    expect(() => frostCrop({ ...count, secondaryKilled: 31 })).toThrow(RangeError)
    expect(() => frostKill('bud burst', Number.NaN)).toThrow(RangeError)
  })
})

describe('canopy', () => {
  const seen = { insertions: 50, gaps: 14, leaves: 68, bunches: 42, exterior: 27 }
  const SMART = 'Smart, by way of wineskills.co.uk'
  published([
    row(['S27 gaps, %', SMART, 'derived'], () => pointQuadrat(seen).gaps * 100, [28, 1e-9]),
    row(['S27 leaf layers', SMART, 'derived'], () => pointQuadrat(seen).leafLayers, [1.36, 1e-9]),
    row(['S27 exposure, %', SMART, 'derived'], () => pointQuadrat(seen).exposure! * 100, [64.3, 0.051]),
  ])
  test('without a bunch there is no exposure', () => {
    expect(pointQuadrat({ ...seen, bunches: 0, exterior: 0 }).exposure).toBeNull()
    expect(() => pointQuadrat({ ...seen, gaps: 51 })).toThrow(RangeError)
  })
})

describe('rows, heat and units', () => {
  const LODI = 'lodigrowers.com, rows 12 ft apart'
  const feet = (length: number) => convert(length, 'ft', 'm')
  const acres = (rowFeet: number) =>
    convert(blockArea({ rows: 1, rowLength: feet(rowFeet), rowSpacing: feet(12) }), 'ha', 'acre')
  published([
    row(['S9 feet of row in an acre', LODI, 'read'], () => 1000 / acres(1000), [3630, 0.5]),
    row(
      ['S9 oz on 1000 ft of row at 0.75 lb an acre', LODI, 'read'],
      () => acres(1000) * 0.75 * 16,
      [3.3, 0.051],
    ),
    row(
      ['S10 175 US gal a US ton, L a tonne', 'Home Winemaking For Dummies, table on dummies.com', 'read'],
      () => convert(175, 'US gal', 'L') / convert(1, 'US ton', 't'),
      [730, 0.5],
    ),
    row(
      ['S28 kWh from 24 to 12 °C', 'planning arithmetic, 3.7 kJ/kg K from memory', 'memory'],
      () => coolingHeat({ weight: 1666, from: 24, to: 12 }),
      [20.55, 0.0051],
    ),
    ...(
      [
        ['US ton', 't', 'acre', 'ha', 2.2417],
        ['lb', 'kg', 'ft', 'm', 1.48816],
        ['US gal', 'L', 'US ton', 't', 4.1727],
      ] as const
    ).map(([of, to, per, by, want]) =>
      row(
        [`S29 1 ${of}/${per}`, 'exact legal units', 'derived'],
        () => convert(1, of, to) / convert(1, per, by),
        [want, 5.1e-5],
      ),
    ),
  ])
  test('S11: 260 of 800 vines (Washington State University) is the size for a share, not for a mean of counts', () => {
    const [vines, chi, share, error] = [800, 3.841, 0.5, 0.05]
    const spread = chi * share * (1 - share)
    expect(Math.ceil((spread * vines) / (error ** 2 * (vines - 1) + spread))).toBe(260)
    // At the 30 % by which bunches per vine vary, the mean to 5 % takes not half as many.
    expect(vinesToCount({ cv: 0.3, error, vines }).needed).toBeLessThan(125)
  })
})

describe('stages on both scales', () => {
  const LORENZ = 'Coombe 1995, AJGWR 1:104-110'
  published(
    (
      [
        [65, 23],
        [81, 35],
        [71, 27],
        [7, 4],
      ] as const
    ).map(([stage, want]) =>
      row([`S-41 BBCH ${stage}`, LORENZ, 'memory'], () => eichhornLorenz(stage), [want]),
    ),
  )
  test('a stage that has no near one says so', () => {
    expect(eichhornLorenz(99)).toBeNull()
  })
})
