import { describe, expect, test } from 'vitest'
import type { Level } from '../../src/ledger/finding.ts'
import { judge } from '../../src/rules/index.ts'
import { ledgerOf } from '../ledger/in-memory.ts'
import { SITE } from '../ledger/make.ts'

// One sound season of an invented vineyard, and one slip at a time. Names, level and the line are expected.

const SPRAYS = 'seasons/2026/sprays.yaml'
const BASE: Record<string, string> = {
  'vineyard.yaml':
    'name: Test Rows\nlatitude: 51.5\nlongitude: 7.1\ntimezone: Europe/Berlin\nlimits:\n  copper: { per_season: 4 kg/ha, rolling: 28 kg/ha, years: 7 }\n  wind: 5 m/s\nharvest: { picking: 45 kg/h, crate: 12 kg, juice: 620 L/t }\n',
  'products/oil.yaml':
    'name: Test oil\nform: EC\nkind: oil\nactives: [ { name: paraffin oil, content: 800 g/L } ]\nuses:\n  - { against: mites, concentration: 5-10 mL/L }\nwater: 150-1000 L/ha\nbefore_harvest: 14 d\nre_entry: 12 h\nkeep_apart: [ { from: sulphur, gap: 14 d } ]\n',
  'products/triazole.yaml':
    'name: Test triazole\nform: SC\nkind: fungicide\nactives: [ { name: testazole, content: 100 g/L, group: "3" } ]\nauthorisation: { number: T-3, until: 2028-12-31 }\nuses:\n  - { against: powdery, rate: 0.2-0.4 L/ha, interval: 10-14 d, stages: 13-79 }\nwater: 150-1000 L/ha\nbefore_harvest: 28 d\nre_entry: 24 h\nmax_per_season: 3\nmax_in_row: 2\nmax_total: 1 L/ha\n',
  [SPRAYS]: [
    spray('2026-05-20', 53, 'sulphur, rate: 3 kg/ha, for: powdery', 'copper, rate: 1 kg/ha, for: downy'),
    spray('2026-06-03', 57, 'triazole, rate: 0.3 L/ha, for: powdery', 'copper, rate: 1.2 kg/ha, for: downy'),
    spray('2026-06-16', 65, 'sulphur, rate: 4 kg/ha, for: powdery', 'copper, rate: 1.1 kg/ha, for: downy'),
    spray('2026-06-30', 73, 'sulphur, rate: 5 kg/ha, for: powdery', 'copper, rate: 1.3 kg/ha, for: downy'),
  ].join(''),
  'seasons/2026/stages.yaml':
    '- { date: 2026-04-28, block: upper, stage: 9 }\n- { date: 2026-06-17, block: upper, stage: 65 }\n- { date: 2026-08-14, block: upper, stage: 81, share: 10 % }\n',
  'seasons/2026/samples.yaml':
    '- { date: 2026-08-29, block: upper, berries: 100, brix: 14.8, ph: 2.91, ta: 13.2 g/L }\n- { date: 2026-09-05, block: upper, berries: 100, brix: 16.5, ph: 2.98, ta: 11.4 g/L }\n- { date: 2026-09-12, block: upper, berries: 100, brix: [17.2, 18.0, 18.4, 17.8], ph: 3.05, ta: 9.8 g/L }\n',
  'seasons/2026/scouting.yaml':
    '- { date: 2026-07-20, block: upper, looked_at: { bunches: 100 }, found: { powdery: { bunches: 4, severity: 2 % } } }\n',
  'seasons/2026/crop.yaml':
    '- { date: 2026-08-05, block: upper, bunches_per_vine: [18, 22, 19, 25], bunch_weight: [48 g, 55 g, 51 g, 60 g], at: lag }\n',
  'seasons/2026/picks.yaml':
    '- { date: 2026-09-20, block: upper, weight: 1800 kg, people: 6, hours: 7, brix: 18.9, crates: 150, juice: 1100 L }\n',
  'seasons/2026/work.yaml':
    '- { date: 2026-07-03, time: 09:00-12:00, block: upper, job: leaf removal, hours: 6, people: 2 }\n',
}

function spray(date: string, stage: number, ...products: string[]): string {
  const list = products.map((product) => `    - { product: ${product} }\n`).join('')
  return `- date: ${date}\n  time: 18:00-19:50\n  blocks: [upper]\n  sprayer: mounted\n  water: 300 L/ha\n  products:\n${list}  stage: ${stage}\n  weather: { wind: 2 m/s, temperature: 18 C, humidity: 60 % }\n`
}

interface Mistake {
  file: string
  from: string
  to: string
  name: string
  level: Level
  /** Text on the line of the finding. */
  at: string
}

const U = 'blocks/upper.yaml'
const P = 'products/sulphur.yaml'
const M = 'sprayers/mounted.yaml'
const slip = (file: string, from: string, to: string, name: string, level: Level, at = to): Mistake => ({
  file,
  from,
  to,
  name,
  level,
  at: at.split('\n').at(-1)!,
})
/** A slip that reading itself refuses. */
const read = (file: string, from: string, to: string, name: string, at = to) =>
  slip(file, from, to, name, 'error', at)
const sample = (from: string, to: string) =>
  slip('seasons/2026/samples.yaml', from, to, 'unlikely-sample', 'warning')
const pick = (from: string, to: string, at = to) =>
  slip('seasons/2026/picks.yaml', from, to, 'unlikely-pick', 'warning', at)
const label = (from: string, to: string) => slip(P, from, to, 'unlikely-product', 'warning')
const site = (from: string, to: string, at = to) =>
  slip('vineyard.yaml', from, to, 'unlikely-site', 'warning', at)
const block = (from: string, to: string, at = to) => slip(U, from, to, 'unlikely-block', 'warning', at)

const MISTAKES: Mistake[] = [
  slip(SPRAYS, 'rate: 4 kg/ha', 'rate: 6.1 kg/ha', 'over-rate', 'error'),
  slip(SPRAYS, 'rate: 4 kg/ha', 'amount: 16 kg', 'over-rate', 'error'),
  slip(SPRAYS, 'rate: 4 kg/ha', 'concentration: 40 g/L', 'over-rate', 'error'),
  slip(SPRAYS, 'rate: 4 kg/ha', 'rate: 1.9 kg/ha', 'under-rate', 'warning'),
  slip(SPRAYS, 'rate: 4 kg/ha', 'rate: 0.4 kg/ha', 'ten-times-usual', 'warning'),
  slip(SPRAYS, 'rate: 4 kg/ha', 'rate: 4 L/ha', 'dose-unit', 'warning'),
  slip(
    SPRAYS,
    'sulphur, rate: 4 kg/ha, for: powdery',
    'oil, concentration: 11 mL/L, for: mites',
    'over-concentration',
    'error',
  ),
  slip(
    SPRAYS,
    'triazole, rate: 0.3 L/ha, for: powdery',
    'oil, concentration: 8 mL/L, for: mites',
    'kept-apart',
    'error',
    'product: sulphur, rate: 4 kg/ha',
  ),
  slip(SPRAYS, 'water: 300 L/ha', 'water: 140 L/ha', 'water-outside-label', 'error'),
  slip(SPRAYS, 'water: 300 L/ha', 'water: 1001 L/ha', 'water-outside-label', 'error'),
  slip(SPRAYS, 'water: 300 L/ha', 'water: 3000 L/ha', 'unlikely-spray', 'warning'),
  slip(SPRAYS, 'water: 300 L/ha', 'water: 3000 L/ha', 'ten-times-usual', 'warning'),
  slip(SPRAYS, 'water: 300 L/ha', 'water: 30 L', 'water-outside-label', 'error'),
  slip(SPRAYS, 'time: 18:00-19:50', 'time: 18:00-18:15', 'impossible-output', 'warning', 'water: 300 L/ha'),
  slip(SPRAYS, 'time: 18:00-19:50', 'time: 04:00-19:50', 'unlikely-spray', 'warning'),
  slip(SPRAYS, 'date: 2026-06-16', 'date: 2026-06-09', 'interval-too-short', 'error'),
  slip(
    SPRAYS,
    'date: 2026-06-30',
    'date: 2026-09-01',
    'inside-days-before-harvest',
    'error',
    'date: 2026-09-20',
  ),
  slip(SPRAYS, 'date: 2026-06-30', 'date: 2026-09-22', 'sprayed-after-picking', 'warning'),
  slip(SPRAYS, 'date: 2026-06-30', 'date: 2026-07-02', 'inside-re-entry', 'error', 'time: 09:00-12:00'),
  slip(SPRAYS, 'date: 2026-05-20', 'date: 2026-02-20', 'stage-out-of-season', 'warning', 'stage: 53'),
  slip(SPRAYS, 'stage: 57', 'stage: 75', 'stage-backwards', 'warning'),
  slip(SPRAYS, 'stage: 73', 'stage: 55', 'stage-backwards', 'warning'),
  slip(SPRAYS, 'wind: 2 m/s', 'wind: 5.1 m/s', 'windy', 'error'),
  slip(SPRAYS, 'wind: 2 m/s', 'wind: 0.9 m/s', 'still-air', 'hint'),
  slip(SPRAYS, 'temperature: 18 C', 'temperature: 30 C', 'sulphur-heat', 'warning'),
  slip(SPRAYS, 'temperature: 18 C', 'temperature: 14 C', 'sulphur-cold', 'hint'),
  slip(SPRAYS, 'temperature: 18 C', 'temperature: 38 C', 'unlikely-spray', 'warning'),
  slip(SPRAYS, 'humidity: 60 %', 'humidity: 6 %', 'unlikely-spray', 'warning'),
  slip(SPRAYS, 'humidity: 60 %', 'humidity: 98 %', 'delta-t', 'hint'),
  slip(
    SPRAYS,
    'sulphur, rate: 4 kg/ha, for: powdery',
    'sulphur, rate: 4 kg/ha, for: downy',
    'not-authorised-for',
    'error',
  ),
  slip(
    SPRAYS,
    'sulphur, rate: 5 kg/ha, for: powdery',
    'triazole, rate: 0.3 L/ha, for: powdery }\n    - { product: triazole, rate: 0.3 L/ha, for: powdery',
    'unlikely-spray',
    'warning',
  ),
  slip(SPRAYS, 'blocks: [upper]', 'rows: 1-21\n  blocks: [upper]', 'more-than-block', 'error', 'rows: 1-21'),
  slip(SPRAYS, 'copper, rate: 1.3 kg/ha', 'copper, rate: 13 kg/ha', 'copper-over-season', 'error'),
  slip(SPRAYS, 'blocks: [upper]', 'blocks: [upper, upper]', 'unlikely-spray', 'warning'),
  slip(
    SPRAYS,
    'water: 300 L/ha',
    'dilute: 150 L/ha\n  water: 300 L/ha',
    'unlikely-spray',
    'warning',
    'dilute: 150 L/ha',
  ),
  slip(P, 'max_per_season: 8', 'max_per_season: 2', 'too-many-applications', 'error', ''),
  slip(P, 'until: 2029-12-31', 'until: 2026-05-31', 'authorisation-lapsed', 'error', ''),
  label('rate: 2-6 kg/ha', 'rate: 2-60 kg/ha'),
  label('before_harvest: 21 d', 'before_harvest: 210 d'),
  label('re_entry: 24 h', 're_entry: 24 d'),
  label('interval: 7-14 d', 'interval: 70-140 d'),
  label('protects: 10 d', 'protects: 100 d'),
  label('until: 2029-12-31', 'until: 2092-12-31'),
  slip(P, 'stock: 100 kg', 'stock: 4 kg\nstocked: 2026-05-01', 'stock-below-use', 'warning', 'stock: 4 kg'),
  slip(M, 'calibrated: 2026-04-01', 'calibrated: 2027-04-01', 'calibration-old', 'warning'),
  slip(M, 'calibrated: 2026-04-01', 'calibrated: 2025-04-01', 'calibration-old', 'hint', ''),
  slip(M, 'tank: 200 L', 'tank: 20000 L', 'unlikely-sprayer', 'warning'),
  slip(M, 'speed: 5 km/h', 'speed: 15 km/h', 'unlikely-sprayer', 'warning'),
  slip(
    M,
    'speed: 5 km/h',
    'speed: 5 km/h\nnozzles: [ 1.1 L/min, 1.1 L/min, 1.1 L/min, 1.1 L/min, 1.4 L/min ]',
    'unlikely-sprayer',
    'warning',
  ),
  slip(
    M,
    'speed: 5 km/h',
    'speed: 5 km/h\nnozzles: [ 2.3 L/min, 2.3 L/min, 2.3 L/min ]',
    'unlikely-sprayer',
    'warning',
    'flow: 5.5 L/min',
  ),
  slip(U, 'rows: 20', 'area: 0.48 ha\nrows: 20', 'area-disagrees', 'warning', 'area: 0.48 ha'),
  slip(U, 'rows: 20', 'area: 4 ha\nrows: 20', 'area-disagrees', 'error', 'area: 4 ha'),
  slip(U, 'missing: 20', 'missing: 2001', 'area-disagrees', 'error'),
  block('height: 1.2 m', 'height: 5 m'),
  block('width: 0.5 m', 'width: 2.1 m'),
  block('row_spacing: 2 m', 'row_spacing: 7 m'),
  block('vine_spacing: 1 m', 'vine_spacing: 10 m'),
  block('missing: 20', 'missing: 20\nplanted: 2061'),
  block('brix: 20-22', 'brix: 6-22'),
  site('latitude: 51.5', 'latitude: -51.5'),
  site('latitude: 51.5', 'latitude: 15.5'),
  site('picking: 45 kg/h', 'picking: 450 kg/h'),
  site('rolling: 28 kg/ha', 'rolling: 2.8 kg/ha', 'per_season'),
  slip('seasons/2026/stages.yaml', 'stage: 81', 'stage: 11', 'stage-backwards', 'warning'),
  slip(
    'seasons/2026/stages.yaml',
    'date: 2026-04-28, block: upper, stage: 9',
    'date: 2026-04-28, block: upper, stage: 89',
    'stage-out-of-season',
    'warning',
  ),
  sample('brix: 16.5', 'brix: 12.1'),
  sample('brix: 16.5', 'brix: 26.5'),
  sample('ph: 2.98', 'ph: 3.89'),
  sample('ta: 11.4 g/L', 'ta: 41 g/L'),
  sample('ta: 9.8 g/L', 'ta: 1.8 g/L'),
  sample('berries: 100, brix: 14.8', 'berries: 1000, brix: 14.8'),
  sample('18.4, 17.8', '28.4, 17.8'),
  slip('seasons/2026/crop.yaml', '51 g', '510 g', 'unlikely-crop', 'warning'),
  slip('seasons/2026/crop.yaml', '[18, 22', '[180, 22', 'unlikely-crop', 'warning'),
  slip(
    'seasons/2026/crop.yaml',
    '[48 g, 55 g, 51 g, 60 g]',
    '[480 g, 550 g, 510 g, 600 g]',
    'unlikely-crop',
    'warning',
  ),
  pick('weight: 1800 kg', 'weight: 18000 kg'),
  pick('weight: 1800 kg', 'weight: 180 kg', 'crates: 150'),
  pick('people: 6, hours: 7', 'people: 1, hours: 0.7'),
  pick('brix: 18.9', 'brix: 28.9'),
  pick('crates: 150', 'crates: 15'),
  pick('juice: 1100 L', 'juice: 11000 L'),
  pick('date: 2026-09-20', 'date: 2026-08-20'),
  slip('seasons/2026/scouting.yaml', 'severity: 2 %', 'severity: 20 %', 'unlikely-walk', 'warning'),
  slip('seasons/2026/scouting.yaml', 'bunches: 100', 'bunches: 10000', 'unlikely-walk', 'warning'),
  slip('seasons/2026/work.yaml', 'hours: 6', 'hours: 60', 'unlikely-walk', 'warning'),
  slip(
    'seasons/2026/picks.yaml',
    BASE['seasons/2026/picks.yaml']!,
    `${BASE['seasons/2026/picks.yaml']}${BASE['seasons/2026/picks.yaml']}`,
    'entered-twice',
    'warning',
    'date: 2026-09-20',
  ),
  slip(
    'seasons/2026/samples.yaml',
    'date: 2026-09-05, block: upper, berries: 100, brix: 16.5, ph: 2.98, ta: 11.4 g/L',
    'date: 2026-08-29, block: upper, berries: 100, brix: 14.8, ph: 2.91, ta: 13.2 g/L',
    'entered-twice',
    'warning',
  ),
  // What a tired grower writes: a digit lost or twice, day and month changed, a unit or a word that is off.
  read(SPRAYS, 'date: 2026-06-16', 'date: 2026-16-06', 'bad-date'),
  read(SPRAYS, 'date: 2026-06-16', 'date: 16-06-2026', 'bad-date'),
  read(SPRAYS, 'date: 2026-06-16', 'date: 2025-06-16', 'wrong-season'),
  slip(SPRAYS, 'date: 2026-06-03', 'date: 2026-03-06', 'stage-out-of-season', 'warning', 'stage: 57'),
  read(SPRAYS, 'time: 18:00-19:50', 'time: 18.00-19.50', 'bad-time'),
  read(SPRAYS, 'time: 18:00-19:50', 'time: 28:00-29:50', 'bad-time'),
  read(SPRAYS, 'blocks: [upper]', 'blocks: [Upper]', 'bad-id'),
  read(SPRAYS, 'blocks: [upper]', 'blocks: upper terrace', 'bad-id'),
  read(SPRAYS, 'blocks: [upper]', 'blocks: []', 'missing-value'),
  read(SPRAYS, 'blocks: [upper]', 'blocks: [uper]', 'unknown-block'),
  read(SPRAYS, 'sprayer: mounted', 'sprayer: mountd', 'unknown-sprayer'),
  read(SPRAYS, 'product: sulphur', 'product: sulfur', 'unknown-product'),
  read(SPRAYS, 'water: 300 L/ha', 'water: 300', 'needs-unit'),
  read(SPRAYS, 'water: 300 L/ha', 'water: -300 L/ha', 'impossible-value'),
  read(SPRAYS, 'rate: 4 kg/ha', 'rate: "4,5 kg/ha"', 'decimal-comma'),
  read(SPRAYS, 'rate: 4 kg/ha', 'rate: 4 kg/hl', 'wrong-unit'),
  read(SPRAYS, 'rate: 4 kg/ha', 'rate: 4 kg/ha, amount: 2 kg', 'two-doses'),
  read(SPRAYS, 'for: powdery', 'For: powdery', 'unknown-key'),
  read(SPRAYS, 'stage: 53', 'stage: 153', 'not-a-stage'),
  read(SPRAYS, 'wind: 2 m/s', 'wind: 2', 'needs-unit'),
  slip(SPRAYS, 'wind: 2 m/s', 'wind: 20 m/s', 'windy', 'error'),
  slip(SPRAYS, 'temperature: 18 C', 'temperature: 8 C', 'sulphur-cold', 'warning'),
  slip(SPRAYS, 'temperature: 18 C', 'temperature: 18 F', 'unlikely-spray', 'warning'),
  read(SPRAYS, 'temperature: 18 C', 'temperature: 81 C', 'impossible-value'),
  slip(
    SPRAYS,
    'temperature: 18 C, humidity: 60 %',
    'temperature: 29 C, humidity: 25 %',
    'delta-t',
    'warning',
  ),
  slip(P, 'before_harvest: 21 d', 'before_harvest: 21 h', 'unlikely-product', 'warning'),
  slip(P, 're_entry: 24 h', 're_entry: 24 min', 'unlikely-product', 'warning'),
  slip(P, 'protects: 10 d', 'protects: 1 d', 'unlikely-product', 'warning'),
  slip(P, 'interval: 7-14 d', 'interval: 7-140 d', 'unlikely-product', 'warning'),
  slip(P, 'form: WG', 'form: SC', 'product-disagrees', 'warning'),
  slip(P, 'group: M02', 'group: M01', 'product-disagrees', 'warning'),
  slip(P, 'kind: fungicide', 'kind: fungcide', 'product-disagrees', 'warning'),
  slip(P, 'content: 800 g/kg', 'content: 80 g/kg', 'product-disagrees', 'warning'),
  slip(P, 'content: 800 g/kg', 'content: 800 g/L', 'product-disagrees', 'warning'),
  slip(P, 'stock: 100 kg', 'stock: 100 L', 'product-disagrees', 'warning'),
  slip('products/copper.yaml', 'content: 350 g/kg', 'content: 35 g/kg', 'product-disagrees', 'warning'),
  slip('products/copper.yaml', 'name: copper', 'name: coper', 'product-disagrees', 'warning'),
  slip('products/oil.yaml', 'from: sulphur', 'from: sulpur', 'product-disagrees', 'warning'),
  slip('products/oil.yaml', 'gap: 14 d', 'gap: 140 d', 'unlikely-product', 'warning'),
  read('products/triazole.yaml', 'group: "3"', 'group: three', 'not-a-group'),
  slip(M, 'calibrated: 2026-04-01', 'calibrated: 2016-04-01', 'calibration-old', 'warning'),
  slip(M, 'flow: 5.5 L/min', 'flow: 55 L/min', 'unlikely-sprayer', 'warning'),
  slip(M, 'tank: 200 L', 'tank: 2 L', 'unlikely-sprayer', 'warning'),
  slip(M, 'tank: 200 L', 'tank: 3000 L', 'unlikely-sprayer', 'warning'),
  block('row_spacing: 2 m\nvine_spacing: 1 m', 'row_spacing: 1 m\nvine_spacing: 2 m'),
  block('height: 1.2 m, width: 0.5 m', 'height: 0.5 m, width: 1.2 m'),
  block('width: 0.5 m', 'width: 0.05 m'),
  block('ph: 3.0-3.3', 'ph: 3.0-4.3'),
  read(U, 'row_length: 100 m', 'row_length: 100', 'needs-unit'),
  read(U, 'rows: 20', 'rows: -20', 'impossible-value'),
  read(U, 'variety: palava', 'variety: Palava', 'bad-id'),
  site('longitude: 7.1', 'longitude: 71'),
  site('crate: 12 kg', 'crate: 1.2 kg'),
  read('vineyard.yaml', 'Europe/Berlin', 'Europe/Berln', 'unknown-timezone'),
  read('vineyard.yaml', 'years: 7', 'years: 7.5', 'wrong-type'),
  slip('varieties/palava.yaml', 'brix: 19-21', 'brix: 19-31', 'unlikely-block', 'warning'),
  sample('date: 2026-09-05', 'date: 2026-05-09'),
  sample('date: 2026-09-05', 'date: 2026-08-05'),
  sample('brix: 16.5', 'brix: 19.5'),
  sample('ta: 11.4 g/L', 'ta: 14.1 g/L'),
  sample('ph: 2.98', 'ph: 3.40'),
  slip('seasons/2026/samples.yaml', 'date: 2026-09-12', 'date: 2026-09-22', 'unlikely-sample', 'warning'),
  slip('seasons/2026/crop.yaml', 'date: 2026-08-05', 'date: 2026-05-08', 'unlikely-crop', 'warning'),
  slip('seasons/2026/crop.yaml', 'at: lag', 'at: harvest', 'unlikely-crop', 'warning'),
  pick('brix: 18.9', 'brix: 12.4'),
  pick('people: 6, hours: 7', 'people: 60, hours: 7'),
  pick('date: 2026-09-20', 'date: 2026-08-29'),
  pick('juice: 1100 L', 'juice: 1100 L, ph: 4.5'),
  pick('juice: 1100 L', 'juice: 1100 L, ta: 41 g/L'),
  pick(
    'juice: 1100 L',
    'juice: 1100 L, rest: 0 % }\n- { date: 2026-09-24, block: upper, weight: 900 kg',
    'rest: 0 %',
  ),
  slip('seasons/2026/scouting.yaml', 'date: 2026-07-20', 'date: 2026-02-20', 'unlikely-walk', 'warning'),
  read('seasons/2026/scouting.yaml', 'bunches: 4,', 'bunches: 104,', 'more-than-looked-at'),
  read('seasons/2026/scouting.yaml', 'powdery:', 'powdry:', 'unknown-key'),
  slip(
    'seasons/2026/work.yaml',
    'time: 09:00-12:00, block: upper, job: leaf removal, hours: 6',
    'time: 09:00-10:00, block: upper, job: leaf removal, hours: 16',
    'unlikely-walk',
    'warning',
  ),
]

function findings(files: Record<string, string>) {
  const ledger = ledgerOf(files)
  return [...ledger.findings, ...judge({ ledger, asOf: '2026-10-20', seasons: new Set(ledger.seasons) })]
}

const FILES: Record<string, string> = { ...SITE, ...BASE }

test('the sound season has no error, warning or hint', () => {
  expect(findings(FILES).map(({ name, file, line }) => [name, file, line])).toEqual([])
})

describe('one mistake at a time', () => {
  test.each(MISTAKES)('$file: $to gives $name', ({ file, from, to, name, level, at }) => {
    const text = FILES[file]!
    expect(text).toContain(from)
    const files = { ...FILES, [file]: text.replace(from, to) }
    const hits = findings(files).filter((finding) => finding.name === name)
    const shown = hits.map((hit) => ({ level: hit.level, text: files[hit.file]!.split('\n')[hit.line - 1] }))
    expect(shown).toContainEqual({ level, text: expect.stringContaining(at) })
  })
})
