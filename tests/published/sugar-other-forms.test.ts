import { describe, expect, test } from 'vitest'
import { brixFromSpecificGravity, specificGravityFromBrix } from '../../src/agronomy/ripening/brix.ts'
import {
  baumeFromSpecificGravity,
  kmwFromOechsle,
  oechsleFromSpecificGravity,
} from '../../src/agronomy/ripening/must-scales.ts'
import { potentialAlcohol, roughAlcohol } from '../../src/agronomy/ripening/potential-alcohol.ts'
import { STYLE_RANGES } from '../../src/agronomy/ripening/style-ranges.ts'
import { sugarPerLitre } from '../../src/agronomy/ripening/sugar-content.ts'
import { sugarPerBerry } from '../../src/agronomy/ripening/sugar-per-berry.ts'
import { tartaricFromSulphuric, titratableAcidity } from '../../src/agronomy/ripening/titratable-acidity.ts'
import { meanInterval } from '../../src/agronomy/statistics/mean.ts'
import { type PublishedRow, published } from './rows.ts'

/** Other published forms of the figures in use, and rules of thumb. */

const rows = (
  source: string,
  basis: PublishedRow['basis'],
  list: [id: string, got: PublishedRow['got'], want: PublishedRow['want'], within?: number][],
): PublishedRow[] => list.map(([id, got, want, within]) => ({ id, source, basis, got, want, within }))

/** Cubic that was fitted to the sucrose table of the CRC Handbook, 69th edition. */
const cubic = (brix: number) =>
  1.000019 + 0.003865613 * brix + 1.296425e-5 * brix ** 2 + 5.701128e-8 * brix ** 3
/** Cubic the other way, found in public code. */
const inverseCubic = (sg: number) => 182.4601 * sg ** 3 - 775.6821 * sg ** 2 + 1262.7794 * sg - 669.5622

describe('density', () => {
  published([
    ...[11, 15, 20, 25, 30].flatMap((brix) =>
      rows('cubic after the CRC Handbook, 69th edition, year not known, as given by public code', 'derived', [
        // Said to agree to 0.00001; the last digit of either may turn.
        [`specific gravity at ${brix} Brix`, () => specificGravityFromBrix(brix), cubic(brix), 1.5e-5],
      ]),
    ),
    ...[1.04, 1.06, 1.08, 1.1, 1.11].flatMap((sg) =>
      rows('inverse cubic in public code, year not known', 'derived', [
        [`Brix at ${sg}`, () => brixFromSpecificGravity(sg), inverseCubic(sg), 0.0075],
      ]),
    ),
    ...rows(
      'Spektrum Lexikon der Biologie, year not known, "Wein": sugar % = Oechsle / 5 + 1, rough',
      'read',
      [['110 Oechsle, about 23 %', () => brixFromSpecificGravity(1.11), 23, 3]],
    ),
  ])
})

describe('scales', () => {
  published([
    ...rows(
      'AOAC table, year not known, as given by a refractometer maker: 1 Baumé is about 1.8 Brix',
      'second-hand',
      [
        [
          'Brix in a Baumé at 20 Brix',
          () => 20 / baumeFromSpecificGravity(specificGravityFromBrix(20)),
          1.8,
          0.005,
        ],
      ],
    ),
    ...rows('winescience.org, year not known: 1 Baumé is about 7 Oechsle', 'read', [
      ['Oechsle in a Baumé at 1.0400', () => 40 / baumeFromSpecificGravity(1.04), 7, 0.25],
    ]),
    ...rows('German wine glossaries, year not known: 1 KMW is 5 Oechsle near 100 Oechsle only', 'read', [
      ['Oechsle in a KMW at 100', () => 100 / kmwFromOechsle(100), 5, 0.03],
    ]),
  ])
})

describe('potential alcohol', () => {
  const spread = potentialAlcohol(20)
  published([
    ...rows('OIV-OENO 466-2012 against the French order of 3 May 1996', 'read', [
      [
        '0.05943 % vol a gram is 16.83 g',
        () => sugarPerLitre(20).value! / potentialAlcohol(20).methods['eu-line']!,
        16.83,
        0.005,
      ],
    ]),
    ...rows(
      'Cox, From Vines to Wines, year not known, read in the winemaking FAQ of TULARC: 20 Brix x 0.56 = 11.2 %',
      'second-hand',
      [['11.2 lies in the range', () => spread.low! <= 11.2 && 11.2 <= spread.high!, true]],
    ),
    ...rows(
      'line through OIV-MA-AS2-02, revised 2012, table II, as given by a refractometer maker: half of Brix is 1 to 2 % vol below it',
      'derived',
      [
        ['at 20 Brix', () => spread.likely! - roughAlcohol(20), 1.5, 0.5],
        ['at 24 Brix', () => potentialAlcohol(24).likely! - roughAlcohol(24), 1.5, 0.65],
      ],
    ),
  ])
  const german = (oechsle: number) =>
    potentialAlcohol(brixFromSpecificGravity(1 + oechsle / 1000)).methods['oechsle-line']!
  test("the other German line ('Gilbert': 76 Oechsle 10.0, 100 Oechsle 13.8) differs by 0.1 to 0.2 % vol, and is not mixed in", () => {
    for (const [oechsle, gilbert] of [
      [76, 10.0],
      [100, 13.8],
    ] as const) {
      const apart = Math.abs(german(oechsle) - gilbert)
      expect(apart).toBeGreaterThan(0.05)
      expect(apart).toBeLessThan(0.25)
    }
  })
})

describe('acid', () => {
  /** One milliequivalent in a litre. */
  const oneMilliequivalent = () => titratableAcidity({ sample: 1000, normality: 1, base: 1 })
  published([
    ...rows('Ribéreau-Gayon et al., year not known, Handbook of Enology vol. 1, front matter', 'read', [
      ['1 meq/L is 0.075 g/L tartaric', oneMilliequivalent, 0.075, 1e-9],
      ['and 0.049 g/L sulphuric', () => tartaricFromSulphuric(0.049), 0.075, 8e-5],
      // The mental rules: add half, subtract a third.
      ['5 g/L sulphuric and a half', () => tartaricFromSulphuric(5), 7.5, 0.16],
      ['9 g/L tartaric less a third', () => tartaricFromSulphuric(6), 9, 0.2],
    ]),
  ])
})

describe('sampling and rates', () => {
  published([
    ...rows('Deloire, year not known: mass x Brix / 100 x 1000', 'derived', [
      ['1.38 g at 20.4', () => sugarPerBerry(1.38, 20.4), 281.5, 0.05],
      ['1.52 g at 19.6', () => sugarPerBerry(1.52, 19.6), 297.9, 0.05],
    ]),
  ])
  test('two lots give no interval, whatever a rule for two lots says', () => {
    expect(meanInterval([19.2, 20.1])).toMatchObject({ low: null, high: null })
  })
})

describe('ranges to aim at', () => {
  const within = (style: 'white' | 'red', of: 'ph' | 'ta', [low, high]: [number, number]) =>
    STYLE_RANGES[style][of][0] <= low && high <= STYLE_RANGES[style][of][1]
  published(
    rows('eXtension (extension.org FAQ 34898), year not known: its range lies in that of the style', 'read', [
      ['pH of white must, 3.1-3.3', () => within('white', 'ph', [3.1, 3.3]), true],
      ['pH of red must, 3.3-3.4', () => within('red', 'ph', [3.3, 3.4]), true],
      ['acid of white must, 7-9 g/L', () => within('white', 'ta', [7, 9]), true],
    ]),
  )
})

test('61.1 Oechsle is what 1.0611 says', () => {
  expect(oechsleFromSpecificGravity(1.0611)).toBeCloseTo(61.1, 9)
})
