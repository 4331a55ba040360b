import { SPRAYS, spray } from '../both-sides.ts'
import { type Row, told } from './row.ts'

const sprayer = (text: string, id = 'mounted') => ({
  [`sprayers/${id}.yaml`]: `name: M\n${text.includes('tank') ? '' : 'tank: 200 L\n'}${text}\n`,
})
/** A sprayer that nothing tells to be on a tractor. */
const some = (text: string) => sprayer(text, 'some')
/** Sprays with the waters given, in L/ha, of a sprayer that gives 300: `100, 99`. */
const waters = (text: string, by = 'mounted', machine = 'flow: 5 L/min\nspeed: 5 km/h') => ({
  ...sprayer(machine),
  'sprayers/other.yaml': 'name: O\ntank: 200 L\nflow: 1 L/min\nspeed: 5 km/h\n',
  [SPRAYS]: text
    .split(', ')
    .map((water, index) =>
      spray({
        date: `2026-06-0${index + 1}`,
        products: ['product: sulphur, rate: 3 kg/ha, for: powdery'],
        water: `${water} L/ha`,
        more: `  sprayer: ${by}\n`,
      }),
    )
    .join(''),
})
const ofMachine = (text: string) => waters('300, 300', 'mounted', text)
export const SPRAYERS: Row[] = [
  [
    'time of a tank',
    some,
    ['tank: 15 L\nflow: 10 L/min', 'tank: 480 L\nflow: 1 L/min'],
    ['tank: 14 L\nflow: 10 L/min', 'tank: 481 L\nflow: 1 L/min'],
  ],
  ['tank on a tractor', sprayer, ['tank: 50 L'], ['tank: 49 L', 'tank: 4001 L']],
  ['tank', some, ['tank: 3 L', 'tank: 4000 L'], ['tank: 2.9 L', 'tank: 4001 L']],
  [
    'flow',
    some,
    ['tank: 20 L\nflow: 0.2 L/min', 'tank: 200 L\nflow: 120 L/min'],
    ['tank: 20 L\nflow: 0.19 L/min', 'tank: 200 L\nflow: 121 L/min'],
  ],
  ['speed', sprayer, ['speed: 0.2 km/h', 'speed: 12 km/h'], ['speed: 0.19 km/h', 'speed: 12.1 km/h']],
  [
    'pressure',
    sprayer,
    ['pressure: 0.9 bar', 'pressure: 60 bar'],
    ['pressure: 0.89 bar', 'pressure: 61 bar'],
  ],
  [
    'nozzle',
    sprayer,
    ['nozzles: [ 0.9 L/min, 1 L/min, 1.1 L/min ]'],
    ['nozzles: [ 0.89 L/min, 1 L/min, 1.11 L/min ]'],
  ],
  [
    'sum of nozzles',
    sprayer,
    ['flow: 2 L/min\nnozzles: [ 1.1 L/min, 1.1 L/min ]'],
    ['flow: 2 L/min\nnozzles: [ 1.11 L/min, 1.11 L/min ]'],
  ],
  [
    'flow below its nozzles, or without one',
    sprayer,
    ['flow: 2 L/min\nnozzles: [ 0.9 L/min, 0.9 L/min ]', 'nozzles: [ 0.9 L/min, 0.9 L/min ]'],
    ['flow: 2 L/min\nnozzles: [ 0.89 L/min, 0.89 L/min ]', 'flow: 2 L/min\nnozzles: [ 2.3 L/min ]'],
  ],
  [
    'all its sprays',
    waters,
    ['240, 240', '375, 375', '239', '239, 241', '376, 374', '239, 376'],
    ['239, 200, 80', '376, 400'],
  ],
  [
    'its flow, with the speed and the rows at a time',
    ofMachine,
    [
      'flow: 50 L/min',
      'speed: 5 km/h',
      'flow: 6.25 L/min\nspeed: 5 km/h',
      'flow: 12.5 L/min\nspeed: 5 km/h\nrows_per_pass: 2',
    ],
    ['flow: 6.3 L/min\nspeed: 5 km/h', 'flow: 12.6 L/min\nspeed: 5 km/h\nrows_per_pass: 2'],
  ],
  [
    'sprays of another sprayer',
    told({
      its: waters('60, 60', 'other', 'speed: 5 km/h\nflow: 20 L/min'),
      one: {
        ...waters('99, 99'),
        [SPRAYS]: `${waters('99')[SPRAYS]}${waters('99', 'other')[SPRAYS].replace('06-01', '06-02')}`,
      },
    }),
    ['its', 'one'],
    [],
  ],
  [
    'sprays with no water written',
    told({
      one: {
        ...waters('99'),
        [SPRAYS]: `${waters('99')[SPRAYS]}${waters('99')
          [SPRAYS].replace('06-01', '06-02')
          .replace(/ {2}water.*\n/, '')}`,
      },
    }),
    ['one'],
    [],
  ],
]
