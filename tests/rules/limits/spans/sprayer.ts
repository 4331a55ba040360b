import type { Row } from './row.ts'

const sprayer = (text: string) => ({
  'sprayers/mounted.yaml': `name: M\n${text.includes('tank') ? '' : 'tank: 200 L\n'}${text}\n`,
})
export const SPRAYERS: Row[] = [
  [
    'time of a tank',
    sprayer,
    ['tank: 15 L\nflow: 10 L/min', 'tank: 480 L\nflow: 1 L/min'],
    ['tank: 14 L\nflow: 10 L/min', 'tank: 481 L\nflow: 1 L/min'],
  ],
  ['tank', sprayer, ['tank: 3 L', 'tank: 4000 L'], ['tank: 2.9 L', 'tank: 4001 L']],
  [
    'flow',
    sprayer,
    ['tank: 20 L\nflow: 0.2 L/min', 'tank: 200 L\nflow: 120 L/min'],
    ['tank: 20 L\nflow: 0.19 L/min', 'tank: 200 L\nflow: 121 L/min'],
  ],
  ['speed', sprayer, ['speed: 1 km/h', 'speed: 12 km/h'], ['speed: 0.9 km/h', 'speed: 12.1 km/h']],
  ['pressure', sprayer, ['pressure: 0.5 bar', 'pressure: 60 bar'], ['pressure: 0.4 bar', 'pressure: 61 bar']],
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
]
