import type { Mistake } from './slips.ts'
import { SPRAYS } from './sound-season.ts'

const STAGES = 'seasons/2026/stages.yaml'
const SAMPLES = 'seasons/2026/samples.yaml'
const PICKS = 'seasons/2026/picks.yaml'
const CROP = 'seasons/2026/crop.yaml'
const SCOUTING = 'seasons/2026/scouting.yaml'
const WORK = 'seasons/2026/work.yaml'
const UPPER = 'blocks/upper.yaml'
const SULPHUR = 'products/sulphur.yaml'
const MOUNTED = 'sprayers/mounted.yaml'
const PICK =
  'date: 2026-09-20, block: upper, weight: 1800 kg, people: 6, hours: 7, brix: 18.9, crates: 150, juice: 1100 L'

type Slip = [file: string, from: string, to: string, name: string, level: Mistake['level'], at?: string]

/** Slips of a tired hand, each with the finding that must stand at its line: dates first, then doses, units, entries. */
const SLIPS: readonly Slip[] = [
  // dates
  [SPRAYS, 'date: 2026-06-16', 'date: 2062-06-16', 'wrong-season', 'error'],
  [SPRAYS, 'date: 2026-06-16', 'date: 1926-06-16', 'wrong-season', 'error'],
  [SAMPLES, 'date: 2026-09-12', 'date: 2062-09-12', 'wrong-season', 'error'],
  [STAGES, 'date: 2026-06-17', 'date: 2206-06-17', 'bad-date', 'error'],
  [PICKS, 'date: 2026-09-20', 'date: 2025-09-20', 'wrong-season', 'error'],
  [SPRAYS, 'date: 2026-06-03', 'date: 2026-06-31', 'bad-date', 'error'],
  [SPRAYS, 'date: 2026-06-03', 'date: 31/06/2026', 'bad-date', 'error'],
  [SCOUTING, 'date: 2026-07-20', 'date: 20.17.2026', 'bad-date', 'error'],
  [SCOUTING, 'date: 2026-07-20', 'date: 20 July', 'bad-date', 'error'],
  [SPRAYS, 'date: 2026-06-03', 'date: 2026-11-01', 'wrong-season', 'error'],
  [SAMPLES, 'date: 2026-09-05', 'date: 2026-05-09', 'unlikely-sample', 'warning'],
  [SAMPLES, 'date: 2026-08-29', 'date: 2026-08-02', 'unlikely-sample', 'warning'],
  [STAGES, 'date: 2026-08-14', 'date: 2026-04-18', 'stage-out-of-season', 'warning'],
  [PICKS, 'date: 2026-09-20', 'date: 2026-12-09', 'wrong-season', 'error'],
  [CROP, 'date: 2026-08-05', 'date: 2026-03-05', 'unlikely-crop', 'warning'],
  [WORK, 'date: 2026-07-03', 'date: 2026-13-03', 'bad-date', 'error'],
  // entries doubled, with one field other
  [
    PICKS,
    `- { ${PICK} }\n`,
    `- { ${PICK} }\n- { ${PICK.replace(', crates: 150', '')} }\n`,
    'entered-twice',
    'warning',
    'date: 2026-09-20',
  ],
  [
    PICKS,
    `- { ${PICK} }\n`,
    `- { ${PICK} }\n- { ${PICK.replace('hours: 7', 'hours: 8')} }\n`,
    'entered-twice',
    'warning',
    'date: 2026-09-20',
  ],
  [
    SAMPLES,
    '- { date: 2026-09-12',
    '- { date: 2026-09-05, block: upper, berries: 100, brix: 16.5, ph: 2.98 }\n- { date: 2026-09-12',
    'entered-twice',
    'warning',
    'ph: 2.98 }',
  ],
  [
    SCOUTING,
    'severity: 2 % } } }\n',
    'severity: 2 % } } }\n- { date: 2026-07-20, block: upper, looked_at: { bunches: 100 }, found: { powdery: { bunches: 4 } } }\n',
    'entered-twice',
    'warning',
    '{ bunches: 4 } }',
  ],
  [
    CROP,
    'at: lag }\n',
    'at: lag }\n- { date: 2026-08-05, block: upper, bunches_per_vine: [18, 22, 19, 25], at: lag }\n',
    'entered-twice',
    'warning',
    '[18, 22, 19, 25], at',
  ],
  [
    WORK,
    'people: 2 }\n',
    'people: 2 }\n- { date: 2026-07-03, block: upper, job: leaf removal, hours: 6 }\n',
    'entered-twice',
    'warning',
    'removal, hours: 6 }',
  ],
  // product and dose changed between lines
  [
    SPRAYS,
    '    - { product: sulphur, rate: 4 kg/ha, for: powdery }\n    - { product: copper, rate: 1.1 kg/ha, for: downy }',
    '    - { product: sulphur, rate: 1.1 kg/ha, for: powdery }\n    - { product: copper, rate: 4 kg/ha, for: downy }',
    'over-rate',
    'error',
    'copper, rate: 4',
  ],
  [
    SPRAYS,
    '    - { product: sulphur, rate: 4 kg/ha, for: powdery }\n    - { product: copper, rate: 1.1 kg/ha, for: downy }',
    '    - { product: sulphur, rate: 1.1 kg/ha, for: powdery }\n    - { product: copper, rate: 4 kg/ha, for: downy }',
    'under-rate',
    'warning',
    'sulphur, rate: 1.1',
  ],
  [
    SPRAYS,
    'sulphur, rate: 4 kg/ha, for: powdery',
    'copper, rate: 1.1 kg/ha, for: powdery',
    'not-authorised-for',
    'error',
    'copper, rate: 1.1 kg/ha, for: powdery',
  ],
  [SPRAYS, 'triazole, rate: 0.3 L/ha', 'sulphur, rate: 0.3 kg/ha', 'under-rate', 'warning'],
  // another site, another block, another sprayer
  [SPRAYS, 'blocks: [upper]', 'blocks: [hill-side]', 'unknown-block', 'error'],
  [
    SAMPLES,
    'date: 2026-09-05, block: upper',
    'date: 2026-09-05, block: river-side',
    'unknown-block',
    'error',
  ],
  [PICKS, 'block: upper', 'block: uper', 'unknown-block', 'error'],
  [SCOUTING, 'block: upper', 'block: upper-', 'bad-id', 'error'],
  [UPPER, 'variety: palava', 'variety: pinot', 'unknown-variety', 'error'],
  [SPRAYS, 'sprayer: mounted', 'sprayer: knapsack', 'unknown-sprayer', 'error'],
  // units
  [SPRAYS, 'temperature: 18 C', 'temperature: 64 C', 'impossible-value', 'error'],
  [SPRAYS, 'temperature: 18 C', 'temperature: 64', 'needs-unit', 'error'],
  [SPRAYS, 'rate: 4 kg/ha', 'rate: 4 g/ha', 'under-rate', 'warning'],
  [SPRAYS, 'rate: 4 kg/ha', 'rate: 4 oz/ha', 'under-rate', 'warning'],
  [SPRAYS, 'rate: 4 kg/ha', 'rate: 4 oz/acre', 'ten-times-usual', 'warning'],
  [SPRAYS, 'rate: 4 kg/ha', 'rate: 4 lb/ha', 'under-rate', 'warning'],
  [SPRAYS, 'rate: 4 kg/ha', 'rate: 4 kg/acre', 'over-rate', 'error'],
  [SPRAYS, 'rate: 4 kg/ha', 'rate: 4,5 kg/ha', 'decimal-comma', 'error'],
  [SPRAYS, 'rate: 4 kg/ha', 'rate: 12 g/L', 'wrong-unit', 'error'],
  [SPRAYS, 'rate: 4 kg/ha', 'concentration: 4 kg/ha', 'wrong-unit', 'error'],
  [SPRAYS, 'rate: 4 kg/ha', 'amount: 4 kg/ha', 'wrong-unit', 'error'],
  [SPRAYS, 'rate: 4 kg/ha', 'rate: 4 L/ha', 'dose-unit', 'error'],
  [SPRAYS, 'triazole, rate: 0.3 L/ha', 'triazole, rate: 0.3 kg/ha', 'dose-unit', 'error'],
  [SPRAYS, 'water: 300 L/ha', 'water: 300 gal/ha', 'ambiguous-unit', 'error'],
  [SPRAYS, 'water: 300 L/ha', 'water: 300 hL/ha', 'unlikely-spray', 'warning'],
  [SPRAYS, 'wind: 2 m/s', 'wind: 7.2 m/s', 'windy', 'error'],
  [UPPER, 'rows: 20', 'area: 0.4 acre\nrows: 20', 'area-disagrees', 'error', 'area: 0.4 acre'],
  [UPPER, 'rows: 20', 'area: 0.988 ha\nrows: 20', 'area-disagrees', 'error', 'area: 0.988 ha'],
  [UPPER, 'row_spacing: 2 m', 'row_spacing: 2 ft', 'unlikely-block', 'warning'],
  [UPPER, 'row_spacing: 2 m', 'row_spacing: 20 m', 'impossible-value', 'error'],
  [UPPER, 'height: 1.2 m', 'height: 12 m', 'impossible-value', 'error'],
  [UPPER, 'ta: 7-9 g/L', 'ta: 70-90 g/L', 'impossible-value', 'error'],
  [UPPER, 'ta: 7-9 g/L', 'ta: 0.7-0.9 g/L', 'unlikely-block', 'warning'],
  [SAMPLES, 'ta: 9.8 g/L', 'ta: 0.98 g/L', 'unlikely-sample', 'warning'],
  [SAMPLES, 'ph: 2.98', 'ph: 29.8', 'impossible-value', 'error'],
  [SAMPLES, 'ph: 2.98, ta: 11.4 g/L', 'ph: 11.4, ta: 2.98 g/L', 'impossible-value', 'error'],
  [SAMPLES, 'brix: 16.5', 'brix: 68', 'impossible-value', 'error'],
  [SAMPLES, 'brix: 16.5', 'brix: 1.65', 'unlikely-sample', 'warning'],
  [SAMPLES, 'berries: 100, brix: 16.5', 'berries: 16.5, brix: 100', 'wrong-type', 'error'],
  [PICKS, 'weight: 1800 kg', 'weight: 1800 t', 'unlikely-pick', 'warning'],
  [PICKS, 'weight: 1800 kg', 'weight: 1800 g', 'unlikely-pick', 'warning'],
  [PICKS, 'weight: 1800 kg', 'weight: 1800 lb', 'unlikely-pick', 'warning'],
  [PICKS, 'juice: 1100 L', 'juice: 1100 hL', 'unlikely-pick', 'warning'],
  [CROP, '[48 g, 55 g, 51 g, 60 g]', '[48 kg, 55 kg, 51 kg, 60 kg]', 'impossible-value', 'error'],
  [CROP, '[48 g, 55 g, 51 g, 60 g]', '[48 oz, 55 oz, 51 oz, 60 oz]', 'unlikely-crop', 'warning'],
  [MOUNTED, 'speed: 5 km/h', 'speed: 5 m/s', 'unlikely-sprayer', 'warning'],
  [MOUNTED, 'flow: 5.5 L/min', 'flow: 0.55 L/min', 'impossible-output', 'warning', 'water: 300 L/ha'],
  [SULPHUR, 'water: 150-1000 L/ha', 'water: 15-100 L/ha', 'unlikely-product', 'warning'],
  [SULPHUR, 'rate: 2-6 kg/ha', 'rate: 6-2 kg/ha', 'not-a-quantity', 'error'],
  [SULPHUR, 'rate: 2-6 kg/ha', 'rate: 2-6 g/ha', 'over-rate', 'error', 'sulphur, rate'],
  [SULPHUR, 'rate: 2-6 kg/ha', 'rate: 2-6 L/ha', 'product-disagrees', 'warning', 'form: WG'],
  [SULPHUR, 'content: 800 g/kg', 'content: 8000 g/kg', 'impossible-value', 'error'],
  [SULPHUR, 'before_harvest: 21 d', 'before_harvest: 21', 'needs-unit', 'error'],
  // what can't be of one season
  [PICKS, 'date: 2026-09-20', 'date: 2026-07-20', 'inside-days-before-harvest', 'error'],
  [SPRAYS, 'date: 2026-06-30', 'date: 2026-08-31', 'inside-days-before-harvest', 'error', ''],
  [SPRAYS, 'date: 2026-06-30', 'date: 2026-06-17', 'interval-too-short', 'error', '2026-06-17'],
  [STAGES, 'date: 2026-08-14', 'date: 2026-09-14', 'unlikely-sample', 'warning', ''],
  [
    MOUNTED,
    'speed: 5 km/h',
    'speed: 5 km/h\nnozzles: [ 1.4 L/min, 1.4 L/min, 1.4 L/min, 1.4 L/min, 1.4 L/min ]',
    'unlikely-sprayer',
    'warning',
    'flow: 5.5 L/min',
  ],
  [SCOUTING, 'bunches: 4,', 'bunches: 4.5,', 'wrong-type', 'error'],
  [SCOUTING, 'severity: 2 %', 'severity: 2', 'needs-unit', 'error'],
  [SCOUTING, 'severity: 2 %', 'severity: 200 %', 'impossible-value', 'error'],
  [SCOUTING, '{ bunches: 100 }', '{ bunches: 0 }', 'impossible-value', 'error'],
  [SCOUTING, 'powdery: { bunches: 4', 'powdery: { leaves: 4', 'more-than-looked-at', 'error'],
  [WORK, 'hours: 6', 'hours: -6', 'impossible-value', 'error'],
  [WORK, 'time: 09:00-12:00', 'time: 09:00-09:30', 'unlikely-walk', 'warning', 'hours: 6'],
  [SPRAYS, 'time: 18:00-19:50', 'time: 19:50-18:00', 'bad-time', 'error'],
  [SPRAYS, 'stage: 65', 'stage: 53', 'stage-backwards', 'warning'],
]

export const MORE: Mistake[] = SLIPS.map(([file, from, to, name, level, at = to.split('\n').at(-1)!]) => ({
  file,
  from,
  to,
  name,
  level,
  at,
}))
