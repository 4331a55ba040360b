import { ESTIMATE, type Figure } from './figure.ts'

const topic = 'ripening'

/** What stands beside the main figures of samples. */
export const SAMPLING: readonly Figure[] = [
  {
    name: 'must-scales',
    topic,
    keys: ['sugar.kmw', 'sugar.alcoholMethods', 'sugar.reading'],
    what: 'The reading as typed, degrees KMW, and potential alcohol by each published method.',
    formula: 'Oechsle = KMW x (0.022 KMW + 4.54)',
    units: 'degrees KMW; % vol',
    source:
      'Ambrosi 1994, Wein von A bis Z, as cited by lebensmittellexikon.de; methods as potential-alcohol',
    basis: 'read',
  },
  {
    name: 'sample-detail',
    topic,
    keys: [
      'ripeness.samples.readings',
      'ripeness.samples.of',
      'ripeness.samples.oechsle',
      'ripeness.samples.endPoint',
      'ripeness.samples.roughAlcohol',
      'ripeness.samples.brixAcidRatio',
      'ripeness.samples.brixPhSquared',
      'ripeness.samples.seeds',
      'ripeness.samples.taste',
    ],
    what: 'Readings of a sample and what one was of, the end point of its titration, seeds and taste as written, and the ratios of its means.',
    source: 'as brix-acid-ratio, brix-ph-squared and rough-alcohol',
    basis: 'own',
  },
  {
    name: 'sugar-loading',
    topic,
    keys: ['ripeness.samples.berryWeight', 'ripeness.samples.sugarPerBerry', 'ripeness.samples.loading'],
    what: 'Sugar in one berry, and whether it still comes in: Brix can rise because berries dry while loading has stopped.',
    formula: 'berry weight x Brix x 10; rate = difference / days',
    units: 'g; mg a berry; mg a berry and day',
    source: 'Deloire, sugar loading, Wines & Vines (undated)',
    basis: 'read',
  },
  {
    name: 'ripening-course',
    topic,
    keys: ['ripeness.trends.course', 'ripeness.trends'],
    what: 'The line through the last sampling days, with a 95 % interval of the mean; the same of acid and of pH.',
    source: 'least squares and Student 1908, Biometrika 6:1-25',
    basis: 'read',
  },
  {
    name: 'press-bias',
    topic,
    keys: [
      'ripeness.pressBias',
      'ripeness.samples.brixAtPress',
      'window.blocks.pressBias',
      'ready.blocks.pressBias',
    ],
    what: 'By how much the press read above the last sample in past picks, with its interval, and a sample with it added where asked.',
    formula: 'mean of press - sample over picks with both; interval by Student t',
    units: 'degrees Brix',
    limits: ESTIMATE,
    source: 'the picks and samples of the book',
    basis: 'own',
  },
]
