import { figures, under } from '../../facts/figure.ts'

/** What `explain` says of the figures of `calibrate`. */
export const FIGURES = figures('spraying', [
  {
    name: 'spray-volume',
    keys: ['calibrate.volumePerHa'],
    what: 'Spray that a moving sprayer applies per hectare.',
    formula:
      'litres per hectare = 600 x flow / (speed x width), with L/min, km/h and m; or litres caught / plot area x 10 000. On a plot of 1/128 acre, the US fl oz caught are the US gal/acre.',
    units: 'L/ha',
    choices: 'The width is what one pass treats: row spacing times the rows of a pass.',
    'second-hand':
      'Teagasc crop-spraying paper 2010, second-hand, read on independent.ie; Good Fruit Grower, calibration steps, year not known, for the area method; Utah State University Extension 2014-03 for 1/128 acre',
  },
  {
    name: 'sprayer-flow',
    keys: ['calibrate.flow', 'calibrate.speed', 'calibrate.rowSpacing'],
    what: 'Flow of all nozzles together, travel speed and width of a pass, as given or calculated.',
    formula:
      'speed = 3.6 x metres / seconds; flow wanted = volume x speed x width / 600. Flow grows with the square root of pressure.',
    units: 'L/min; km/h; m',
    memory:
      'Teagasc crop-spraying paper 2010, second-hand, read on independent.ie; the nozzle law from memory',
  },
  {
    name: 'nozzle-check',
    keys: ['calibrate.nozzles.flow', 'calibrate.nozzles.deviation', 'calibrate.nozzles.ok'],
    what: "Each nozzle's flow against the mean of all. Replace one that differs by more than a tenth.",
    formula: 'deviation = (flow - mean) / mean',
    units: 'L/min; share',
    limits: 'A nozzle agrees if it is within 10 % of the mean.',
    'second-hand':
      'state publications of Florida, second-hand, read on study pages for pest-control examinations, year not known',
  },
  {
    name: 'output-wanted',
    keys: under('calibrate', 'method nozzleMean nozzleTolerance wanted saved changes tankCovers plot128'),
    what: 'How far the output is from what you want. Also the flow, nozzle, speed or pressure that would correct it.',
    formula:
      'flow = volume x speed x width / 600; new speed = speed x output now / output wanted; new pressure = pressure x (flow wanted / flow now)²',
    units: 'L/ha; L/min; km/h; bar',
    limits: 'The whole sprayer may be 5 % off, a nozzle 10 %.',
    memory: 'Ozkan 2021, Ohio State University Extension FABE-537; the nozzle law from memory',
  },
])
