import studentQuantile from '@stdlib/stats-base-dists-t-quantile'
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
const wolpert = 'Wolpert & Vilas 1992, Am. J. Enol. Vitic., n = (t cv / E)², year and formula from memory'
const exactly = (mean: number): SampleSummary => ({ mean, sd: 0, n: 100 })
const planted = vinesPerHa({ rowSpacing: 2.4, vineSpacing: 1.2 }) * 0.25
const bearing = planted * 0.96

const lag = (value: number) =>
  cropEstimate({ vines: bearing, bunches: exactly(28), weight: exactly(0.062), factor: { value, cv: 0 } })

// Not rounded to whole vines, as the printed values.
const harvest = {
  vines: 833,
  bunches: { mean: 28, sd: 9, n: 20 },
  weight: { mean: 0.124, sd: 0.045, n: 60 },
  factor: factorAtHarvest,
}
const atHarvest = () => cropEstimate(harvest)
const atLag = () =>
  cropEstimate({
    ...harvest,
    weight: { mean: 0.062, sd: 0.0225, n: 60 },
    factor: { value: 2, cv: 0.1 },
  })
const row = (
  id: string,
  source: string,
  got: PublishedRow['got'],
  want: PublishedRow['want'],
  within = 0,
  basis: PublishedRow['basis'] = 'derived',
): PublishedRow => ({ id, source, basis, got, want, within })

/** Half-width from counting and weighing as a share of the estimate, %. */
const shareOf = (changed: Partial<Parameters<typeof cropEstimate>[0]>): number => {
  const { estimate, halfWidth } = cropEstimate({ ...harvest, ...changed })
  return (halfWidth!.sampling / estimate) * 100
}
const t = (n: number): number => studentQuantile(0.975, n - 1)

/** The printed errors carry no finite population correction; this takes it out again. */
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
  row(
    'error of the count, %',
    delta,
    () => withoutCorrection(shareOf({ weight: exactly(0.124) })) / t(20),
    7.187,
    0.00051,
  ),
  row('error of the weight, %', delta, () => shareOf({ bunches: exactly(28) }) / t(60), 4.685, 0.00051),
  row(
    'half-width of both, with the finite population correction, kg',
    `${delta}; Cochran 1977, Sampling techniques; t by @stdlib/stats-base-dists-t-quantile 0.2.3`,
    () => atHarvest().high! - atHarvest().estimate,
    28.9218 * Math.hypot(t(20) * 7.187 * Math.sqrt(1 - 20 / 833), t(60) * 4.685),
    0.05,
  ),
  row(
    'half-width without it, by an endless block, %',
    `${delta}; t by @stdlib/stats-base-dists-t-quantile 0.2.3`,
    () => shareOf({ vines: 1e12 }),
    Math.hypot(t(20) * 7.187, t(60) * 4.685),
    0.0021,
  ),
  row(
    'by t the interval is wider than by the normal distribution, 2405.8 to 3378.5 kg',
    delta,
    () => atHarvest().low! < 2405.8 && atHarvest().high! > 3378.5,
    true,
  ),
  row(
    'half-width of a factor that varies by 10 %, kg',
    delta,
    () => atLag().halfWidth!.factor,
    1.96 * 289.218,
    0.051,
  ),
  row(
    'upper end at lag phase, kg',
    `${delta}; t by @stdlib/stats-base-dists-t-quantile 0.2.3`,
    () => atLag().high,
    2892.18 + 28.9218 * Math.hypot(t(20) * 7.187 * Math.sqrt(1 - 20 / 833), t(60) * 4.685, 1.96 * 10),
    0.1,
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
  // By z the formula gives 35, 31 and 139; t is larger than z, the more so the fewer are counted.
  row(
    'vines for 10 % at 30 % variation',
    `${wolpert}; tables of t by Student 1908: 37 x (0.1 / 0.3)² gives t 2.0276, t(36) is 2.0281; 38 gives 2.0548, t(37) is 2.0262`,
    () => vinesToCount({ cv: 0.3, error: 0.1 })!.needed,
    38,
    0,
    'memory',
  ),
  row(
    'of 250 vines',
    `${wolpert}; tables of t by Student 1908: (3 x t(31))² is 37.44, corrected 32.6, over 32; (3 x t(32))² is 37.34, corrected 32.5`,
    () => vinesToCount({ cv: 0.3, error: 0.1, vines: 250 })!.needed,
    33,
    0,
    'memory',
  ),
  row(
    'for 5 %',
    `${wolpert}; tables of t by Student 1908: (6 x t(139))² is 140.73, over 140; (6 x t(140))² is 140.71`,
    () => vinesToCount({ cv: 0.3, error: 0.05 })!.needed,
    141,
    0,
    'memory',
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
    () => estimateError({ estimate: 133, actual: 100 }),
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
