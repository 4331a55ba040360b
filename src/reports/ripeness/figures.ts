import { USUAL_BERRIES } from '../../agronomy/ripening/sample-error.ts'
import { figures, under } from '../../facts/figure.ts'

/** What `explain` says of the figures of `ripeness`. */
export const FIGURES = figures('ripening', [
  {
    name: 'brix-interval',
    keys: under('ripeness.samples', 'brixLow brixHigh enough needed'),
    what: 'The 95 % interval of the mean. Also whether the mean is known to 0.5 Brix, or how many more readings that needs.',
    formula:
      'interval = mean ± t x s / sqrt(n); n needed = the smallest n for which t x s / sqrt(n) is within the margin',
    units: 'degrees Brix; readings',
    limits: 'There is no interval from fewer than three readings, nor from one pooled reading.',
    'second-hand':
      'Student 1908, Biometrika 6:1-25, second-hand, as given by Statistics for Environmental Engineers, year not known',
  },
  {
    name: 'titratable-acidity',
    keys: ['ripeness.samples.ta', 'ripeness.samples.ph', 'ripeness.samples.berries'],
    what: 'Titratable acidity as tartaric acid, pH and number of berries of a sample: the means of what was measured.',
    formula: 'acid = 75 x normality x base / sample; as tartaric = as sulphuric x 150.09 / 98.08',
    units: 'g/L',
    choices:
      'Titration ends at pH 7 (OIV) or 8.2 (America, Australia), which reads a little higher. The end point is kept with the result.',
    read: 'Ribéreau-Gayon et al., Handbook of Enology vol. 1, year not known; OIV-MA-AS313-01, listing at oiv.int, year not known; AWRI Technical Note TN14, year not known',
  },
  {
    name: 'sugar-rate',
    keys: under('ripeness.trends', 'perDay perDayLow perDayHigh n'),
    what: 'How much Brix rises a day, with its interval, and from how many sampling days.',
    formula:
      "The rate is the slope of a line through the last sampling days. Its interval is by Student's t.",
    units: 'Brix per day',
    'second-hand':
      'least squares; agrees with Anscombe 1973, The American Statistician 27:17-21, second-hand, data as given by vega-datasets',
  },
  {
    name: 'sampling-day',
    keys: [
      'ripeness.trends.lastDay',
      ...under('ripeness.trends.lastDay', 'date brix of aside'),
      'window.blocks.lastSample',
    ],
    what: 'Sugar, acid and pH of a block on a sampling day: the mean of all berries sampled. All reports use this one figure. `of` is the number of samples in it. `aside` is what other samples of that day read, which are left out.',
    formula: `mean = sum of berries x reading / sum of berries, with ${USUAL_BERRIES} berries where no number is recorded`,
    units: 'Brix; g/L; pH',
    choices:
      'Samples of one day count together only if recorded alike: berries, bunches or whole vines; the same `instrument`; the same scale, or end of titration. Other samples may be of the same juice, or differ by the method. The method of most sampling days counts, so that a change of method is not read as ripening. Of as many, it is that of most berries, else that written last. Readings at the press are never mixed in. Samples of a day may lie further apart than their own errors. Then the sugar check takes that as the error of the mean. The window takes each sample that counts by itself, with its own error.',
    'common practice': 'common practice, no source',
  },
  {
    name: 'sample-detail',
    keys: under(
      'ripeness.samples',
      'readings of oechsle endPoint roughAlcohol brixAcidRatio brixPhSquared seeds taste',
    ),
    what: 'Readings of a sample, what each was of, and the ratios of their means. Also the end point of its titration, and seeds and taste as noted.',
    own: 'as brix-acid-ratio, brix-ph-squared and rough-alcohol',
  },
  {
    name: 'sugar-loading',
    keys: ['ripeness.samples.berryWeight', 'ripeness.samples.sugarPerBerry', 'ripeness.samples.loading'],
    what: 'Sugar in one berry, and whether more is still coming in. Brix also rises when berries only dry out.',
    formula: 'sugar in a berry = berry weight x Brix x 10; rate = difference / days',
    units: 'g; mg a berry; mg a berry and day',
    read: 'Deloire, sugar loading, in Wines & Vines, year not known',
  },
  {
    name: 'ripening-course',
    keys: ['ripeness.trends.course', 'ripeness.trends'],
    what: 'The line through the last sampling days, with a 95 % interval of the mean. Acid and pH have theirs.',
    'second-hand':
      'least squares, and Student 1908, Biometrika 6:1-25, second-hand, as given by Statistics for Environmental Engineers, year not known',
  },
  {
    name: 'field-to-press',
    keys: [
      'ripeness.pressBias',
      'ripeness.samples.brixAtPress',
      'window.blocks.pressBias',
      'ready.blocks.pressBias',
    ],
    what: 'How much higher the press read than the last field sample in past picks, with its interval. Where you ask for it, it is added to samples.',
    formula:
      "difference = mean of press - sample, over picks that have both. The interval is by Student's t.",
    units: 'degrees Brix',
    own: 'the recorded picks and samples',
  },
])
