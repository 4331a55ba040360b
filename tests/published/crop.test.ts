import { vinesPerHa } from '../../src/agronomy/crop/area.ts'
import { cropEstimate, type SampleSummary } from '../../src/agronomy/crop/crop-estimate.ts'
import { cropTotal } from '../../src/agronomy/crop/crop-total.ts'
import { factorAtHarvest, growthFactor } from '../../src/agronomy/crop/growth-factor.ts'
import { harvestPlan } from '../../src/agronomy/crop/harvest-plan.ts'
import { pickingRate } from '../../src/agronomy/crop/picking-rate.ts'
import { thinning } from '../../src/agronomy/crop/thinning.ts'
import { vinesToCount } from '../../src/agronomy/crop/vines-to-count.ts'
import { estimateError } from '../../src/agronomy/statistics/estimate-error.ts'
import { type PublishedRow, published } from './rows.ts'

const ohio =
  'Dami, Ohio State University, year not known, How to estimate grape yields: vines x bunches x bunch weight'
const wolfe =
  'Wolfe, Oregon State University, and Fiola, University of Maryland, year not known: lag phase weight x 2'
const delta =
  'yield formula of Dami, Ohio State University, year not known; its error worked out here by the delta method'
const exactly = (mean: number): SampleSummary => ({ mean, sd: 0, n: 100 })
const planted = vinesPerHa({ rowSpacing: 2.4, vineSpacing: 1.2 }) * 0.25
const bearing = planted * 0.96

const lag = (value: number) =>
  cropEstimate({ vines: bearing, bunches: exactly(28), weight: exactly(0.062), factor: { value, cv: 0 } })

// Not rounded to whole vines, as the printed values.
const atHarvest = () =>
  cropEstimate({
    vines: 833,
    bunches: { mean: 28, sd: 9, n: 20 },
    weight: { mean: 0.124, sd: 0.045, n: 60 },
    factor: factorAtHarvest,
  })
const atLag = () =>
  cropEstimate({
    vines: 833,
    bunches: { mean: 28, sd: 9, n: 20 },
    weight: { mean: 0.062, sd: 0.0225, n: 60 },
    factor: { value: 2, cv: 0.1 },
  })
const row = (
  id: string,
  source: string,
  got: () => number | string | null,
  want: number | string | null,
  within = 0,
  basis: PublishedRow['basis'] = 'derived',
): PublishedRow => ({ id, source, basis, got, want, within })

/** The standard errors below carry no finite population correction; this takes it out again. */
const withoutCorrection = (relative: number): number => relative / Math.sqrt(1 - 20 / 833)

const certain = (value: number) => ({ low: value, likely: value, high: value })
const ton = harvestPlan({
  crop: certain(1000), // one ton as a thousand parts
  rate: certain(1),
  hours: 1,
  crate: 1,
  juicePerTonne: 150, // US gallons per US ton
  bottle: 2.378 / 12, // a twelfth of the printed case of 2.378 US gallons
})

published([
  // Yield per foot of row and per acre, in pounds: the formula is the same in every unit of weight.
  row(
    'pounds per foot',
    'Cortell, Oregon Wine Press, year not known: a shoot every 4 in, 1.5 clusters of 0.22 lb',
    () =>
      cropEstimate({ vines: 1, bunches: exactly(4.5), weight: exactly(0.22), factor: factorAtHarvest })
        .estimate,
    1,
    0.011, // printed as about 1; 0.99
    'read',
  ),
  row(
    'tons per acre',
    'Cortell, Oregon Wine Press, year not known: rows of 10 ft',
    () =>
      cropEstimate({ vines: 4356, bunches: exactly(4.5), weight: exactly(0.22), factor: factorAtHarvest })
        .estimate / 2000,
    2.16,
    0.005,
    'read',
  ),
  ...(
    [
      [10, 4],
      [25, 10],
    ] as const
  ).map(([clusters, pounds]) =>
    row(
      `${clusters} clusters of 0.40 lb`,
      'Purdue University, Facts for Fancy Fruit, year not known',
      () =>
        cropEstimate({ vines: 1, bunches: exactly(clusters), weight: exactly(0.4), factor: factorAtHarvest })
          .estimate,
      pounds,
      1e-9,
      'read',
    ),
  ),
  row('vines planted', ohio, () => planted, 868.06, 0.0051),
  row('vines bearing', ohio, () => bearing, 833.33, 0.0051),
  row('factor 2.0', wolfe, () => lag(2).estimate, 2893.3, 0.051),
  row('factor 1.8', wolfe, () => lag(1.8).estimate, 2604, 0.051),
  row('factor 2.2', wolfe, () => lag(2.2).estimate, 3182.7, 0.051),
  row('t/ha', wolfe, () => lag(2).estimate / 1000 / 0.25, 11.573, 0.00051),
  row('kg per vine', wolfe, () => lag(2).estimate / bearing, 3.472, 0.00051),
  row(
    'tons per acre',
    ohio,
    () =>
      cropEstimate({
        vines: 807 * 0.95,
        bunches: exactly(40),
        weight: exactly(0.25),
        factor: factorAtHarvest,
      }).estimate / 2000,
    3.833,
    0.00051,
  ),
  row('estimate', delta, () => atHarvest().estimate, 2892.18, 0.0051),
  row('error of the count', delta, () => withoutCorrection(atHarvest().parts.bunches!) * 100, 7.187, 0.00051),
  row('error of the weight', delta, () => atHarvest().parts.weight! * 100, 4.685, 0.00051),
  row(
    'relative error without correction',
    delta,
    () => Math.hypot(withoutCorrection(atHarvest().parts.bunches!), atHarvest().parts.weight!) * 100,
    8.58,
    0.00051,
  ),
  row(
    'relative error with finite population correction',
    `${delta}; Cochran 1977, Sampling techniques`,
    () => (atHarvest().standardError! / atHarvest().estimate) * 100,
    8.507,
    0.00051,
  ),
  row('standard error with it, kg', delta, () => atHarvest().standardError, 246, 0.051),
  row(
    'without it, by an endless block, kg',
    delta,
    () =>
      (cropEstimate({
        vines: 1e12,
        bunches: { mean: 28, sd: 9, n: 20 },
        weight: { mean: 0.124, sd: 0.045, n: 60 },
        factor: factorAtHarvest,
      }).standardError! /
        1e12) *
      833,
    248.1,
    0.051,
  ),
  row(
    'lower end by the normal distribution',
    `${delta}; ours uses t and is wider`,
    () => {
      const { parts, estimate } = atHarvest()
      return estimate * (1 - 1.96 * Math.hypot(withoutCorrection(parts.bunches!), parts.weight!))
    },
    2405.8,
    0.051,
  ),
  row(
    'exact variance of a product',
    'Goodman 1960, J. Am. Stat. Assoc. 55:708-713: the term left out changes the third digit only',
    () => {
      const count = withoutCorrection(atHarvest().parts.bunches!)
      const weight = atHarvest().parts.weight!
      return Math.hypot(count, weight, count * weight) * 100
    },
    8.586,
    0.00051,
  ),
  row(
    'relative error',
    delta,
    () => {
      const { bunches, weight, factor } = atLag().parts
      return Math.hypot(withoutCorrection(bunches!), weight!, factor) * 100
    },
    13.176,
    0.00051,
  ),
  row(
    'standard error, kg',
    delta,
    () => {
      const { bunches, weight, factor } = atLag().parts
      return atLag().estimate * Math.hypot(withoutCorrection(bunches!), weight!, factor)
    },
    381.1,
    0.051,
  ),
  row(
    'upper end by the normal distribution',
    delta,
    () => {
      const { bunches, weight, factor } = atLag().parts
      return atLag().estimate * (1 + 1.96 * Math.hypot(withoutCorrection(bunches!), weight!, factor))
    },
    3639.1,
    0.051,
  ),
  row(
    'two equal blocks, own factors: error grows by the root of two',
    'Cochran 1977, Sampling techniques, ch. 5, stratified total',
    () => {
      const total = cropTotal({ estimates: [atLag(), atLag()], sharedFactor: false })
      return (total.high! - total.estimate!) / (atLag().high! - atLag().estimate)
    },
    Math.SQRT2,
    1e-9,
    'memory',
  ),
  ...(
    [
      ['z', { cv: 0.3, error: 0.1, t: 1.96 }, 35],
      ['t = 2', { cv: 0.3, error: 0.1, t: 2 }, 36],
      ['250 vines', { cv: 0.3, error: 0.1, t: 1.96, vines: 250 }, 31],
      ['5 %', { cv: 0.3, error: 0.05, t: 1.96 }, 139],
    ] as const
  ).map(([what, options, want]) =>
    row(
      `${what}`,
      'Wolpert & Vilas 1992, Am. J. Enol. Vitic., n = (t cv / E)², year and formula from memory',
      () => vinesToCount(options)!.needed,
      want,
      0,
      'memory',
    ),
  ),
  row(
    'Student t for its own n',
    'Student 1908, tables of t: 37 x (0.1 / 0.3)² gives t 2.0276, t(36) is 2.0281; 38 gives 2.0548, t(37) is 2.0262',
    () => vinesToCount({ cv: 0.3, error: 0.1 })!.needed,
    38,
  ),
  row('lag weight of half the final', wolfe, () => growthFactor([]).value, 2, 0, 'read'),
  row(
    'lag weight 40 % of the final',
    'de la Fuente et al. 2015, OENO One 49',
    () => growthFactor([]).high,
    2.5,
    0,
  ),
  row(
    'lag weight 60 % of the final',
    'de la Fuente et al. 2015, OENO One 49',
    () => growthFactor([]).low,
    1.67,
    0.005,
  ),
  ...([0.4, 0.5, 0.6] as const).map((share) =>
    row(
      `own season with lag weight ${share * 100} % of the final`,
      'de la Fuente et al. 2015, OENO One 49',
      () => growthFactor([{ lagWeight: share * 0.12, harvestWeight: 0.12 }]).value,
      1 / share,
      1e-9,
    ),
  ),
  row(
    'thinning back to the example',
    `${ohio}, solved for bunches`,
    () => thinning({ target: 2893.3333, vines: bearing, bunchWeight: 0.124, bunchesPerVine: 40 }).keep,
    28,
    0.001,
  ),
  row(
    'estimate 33 % too high',
    'Dunn 2016, National Wine and Grape Industry Centre: Australia 2000/01, +33 %',
    () => estimateError({ estimate: 133, actual: 100 }).share,
    0.33,
    1e-9,
    'read',
  ),
  row(
    'cases',
    'Cornell CALS 2011: 150 gal per ton, 2.378 gal a case',
    () => ton.juice.likely / 2.378,
    63.08,
    0.0051,
  ),
  row(
    'bottles of 63 whole cases',
    'Cornell CALS 2011',
    () => Math.floor(ton.bottles.likely / 12) * 12,
    756,
    0,
    'read',
  ),
  row('pounds of fruit per bottle', 'Cornell CALS 2011', () => 2000 / ton.bottles.likely, 2.6, 0.051, 'read'),
  row(
    'hours per acre at a minute a vine',
    'Martinson, Cornell University, year not known: 807 vines',
    () =>
      harvestPlan({ crop: certain(807), rate: certain(60), hours: 8, crate: 1, juicePerTonne: 0 }).personHours
        .likely,
    13.5,
    0.051,
    'read',
  ),
  row(
    'lugs of 30 lb per US ton',
    'wine-grape-growing.com, year not known, lug of 30 lb',
    () =>
      harvestPlan({ crop: certain(2000), rate: certain(1), hours: 1, crate: 30, juicePerTonne: 0 }).crates
        .likely,
    67,
  ),
  ...([400, 500] as const).map((weight) =>
    row(
      `${weight} kg a picker-day`,
      'vineyardmagazine.co.uk, year not known, 400 to 500 kg a picker-day, hortnews.com 50 kg per person-hour',
      () => pickingRate([{ weight, people: 1, hours: weight / 50 }]).rate,
      50,
      1e-9,
      'read',
    ),
  ),
])
