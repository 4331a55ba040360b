import { expect, test } from 'vitest'
import { judge } from '../../../src/rules/index.ts'
import { findingsOf, ledgerOf } from '../../ledger/in-memory.ts'
import { EXTRA, type Files, label, SPRAYS, site, spray } from './both-sides.ts'
import { LIMITS } from './cases.ts'

const EXTRA_PART = 'product: extra, rate: 3 kg/ha, for: powdery'
const on = (date: string, more = '', blocks = '[upper]', water = '300 L/ha') =>
  spray({ date, water, products: [EXTRA_PART], more }).replace('[upper]', blocks)
const plain = (size: string) => `name: P\nvariety: palava\n${size}row_spacing: 2 m\nvine_spacing: 1 m\n`
const stage = (latitude: number, date: string, value = 65) => ({
  'vineyard.yaml': `name: T\nlatitude: ${latitude}\ntimezone: Europe/Berlin\n`,
  'seasons/2026/stages.yaml': `- { date: ${date}, block: upper, stage: ${value} }\n`,
})
/** 360 L on `upper`, far more than it can be, and as much again on a block beside it; the sprayer puts out 5.5 L/min. */
const sprayed = (size: string, time: string, more = '') => ({
  'blocks/plain.yaml': plain(size),
  [EXTRA]: label(),
  [SPRAYS]: on('2026-06-10', `  time: ${time}\n  sprayer: mounted\n${more}`, '[upper, plain]', '900 L/ha'),
})
/** The pH of samples of `upper`, which is all that they say. */
const samples = (...read: [date: string, ph: number][]): Files => ({
  'seasons/2026/samples.yaml': read
    .map(([date, ph]) => `- { date: ${date}, block: upper, ph: ${ph} }\n`)
    .join(''),
})
const ROWS = 'rows: 20\nrow_length: 100 m\n'
const AREA = 'area: 0.4 ha\n'

// Where the records lack what a rule needs, it says nothing; beside each such ledger is one that
// differs in that alone and is reported.
test.each<[what: string, rule: string, silent: Files, told: Files, asOf?: string]>([
  [
    'rows of a block whose record counts none',
    'more-than-block',
    {
      'blocks/plain.yaml': plain(AREA),
      [EXTRA]: label(),
      [SPRAYS]: on('2026-06-10', '  rows: 1-99\n', '[plain]'),
    },
    {
      'blocks/plain.yaml': plain(ROWS),
      [EXTRA]: label(),
      [SPRAYS]: on('2026-06-10', '  rows: 1-99\n', '[plain]'),
    },
  ],
  [
    'litres of a spray of which one block has no known rows',
    'impossible-output',
    sprayed(AREA, '18:00-18:05', '  rows: 1-20\n'),
    sprayed(ROWS, '18:00-18:05', '  rows: 1-20\n'),
  ],
  [
    'litres of a spray whose end is not written',
    'impossible-output',
    sprayed(ROWS, '18:00'),
    sprayed(ROWS, '18:00-18:05'),
  ],
  [
    'the tank of a sprayer that no tractor carries',
    'unlikely-sprayer',
    { 'sprayers/small.yaml': 'name: Quad-mounted\ntank: 40 L\n' },
    { 'sprayers/small.yaml': 'name: Tractor-mounted\ntank: 40 L\n' },
  ],
  [
    'two sprays of one day',
    'interval-too-short',
    {
      [EXTRA]: label({ use: 'rate: 1-6 kg/ha, interval: 7-14 d' }),
      [SPRAYS]: on('2026-06-10') + on('2026-06-10'),
    },
    {
      [EXTRA]: label({ use: 'rate: 1-6 kg/ha, interval: 7-14 d' }),
      [SPRAYS]: on('2026-06-10') + on('2026-06-11'),
    },
  ],
  [
    'two sprays of a product whose label names no interval',
    'interval-too-short',
    { [EXTRA]: label(), [SPRAYS]: on('2026-06-10') + on('2026-06-11') },
    {
      [EXTRA]: label({ use: 'rate: 1-6 kg/ha, interval: 7-14 d' }),
      [SPRAYS]: on('2026-06-10') + on('2026-06-11'),
    },
  ],
  [
    'flowering in January near the equator',
    'stage-out-of-season',
    stage(24.9, '2026-01-10'),
    stage(25, '2026-01-10'),
  ],
  [
    'flowering in January in the south',
    'stage-out-of-season',
    stage(-34, '2026-01-10'),
    stage(34, '2026-01-10'),
  ],
  [
    'buds at rest, which may be seen at any time',
    'stage-out-of-season',
    stage(34, '2026-10-10', 0),
    stage(34, '2026-10-10', 1),
  ],
  [
    'a reading between its neighbours, far off the line from one to the other',
    'unlikely-sample',
    samples(['2026-09-01', 3], ['2026-09-02', 3.39], ['2026-09-20', 3.4]),
    samples(['2026-09-01', 3], ['2026-09-02', 3.39], ['2026-09-20', 3.1]),
  ],
  [
    'a reading below its neighbours by less than samples scatter',
    'unlikely-sample',
    samples(['2026-09-01', 3.3], ['2026-09-10', 3.01], ['2026-09-20', 3.3]),
    samples(['2026-09-01', 3.3], ['2026-09-10', 2.99], ['2026-09-20', 3.3]),
  ],
  [
    'a reading that stands out of two which lie over thirty days apart',
    'unlikely-sample',
    samples(['2026-08-20', 3], ['2026-09-05', 3.35], ['2026-09-20', 3]),
    samples(['2026-08-21', 3], ['2026-09-05', 3.35], ['2026-09-20', 3]),
  ],
  [
    'a strong wind that is not written',
    'windy',
    {
      'vineyard.yaml': site('wind: 5 m/s'),
      [EXTRA]: label(),
      [SPRAYS]: on('2026-06-10', '  weather: { humidity: 60 % }\n'),
    },
    {
      'vineyard.yaml': site('wind: 5 m/s'),
      [EXTRA]: label(),
      [SPRAYS]: on('2026-06-10', '  weather: { wind: 6 m/s }\n'),
    },
  ],
])('%s: %s is silent', (_, rule, silent, told, asOf) => {
  expect(findingsOf(rule, silent, asOf)).toEqual([])
  expect(findingsOf(rule, told, asOf)).not.toEqual([])
})

test.each(LIMITS)('%s: not in a season that is only looked back on', (finding, _, outside) => {
  const ledger = ledgerOf(outside)
  const told = (season: number) =>
    judge({ ledger, asOf: '2026-10-20', seasons: new Set([season]) })
      .filter(({ file }) => file.startsWith('seasons/'))
      .map(({ name, level }) => `${level} ${name}`)
  expect(told(2030)).toEqual([])
  // Those of the vineyard's own records are told of in any season.
  const standing = judge({ ledger, asOf: '2026-10-20', seasons: new Set([2030]) })
  if (!standing.some(({ name, level }) => finding === `${level} ${name}`))
    expect(told(2026)).toContain(finding)
})
