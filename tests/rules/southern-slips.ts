import type { Level } from '../../src/ledger/read/finding.ts'

const SPRAYS = 'seasons/2026/sprays.yaml'
const SAMPLES = 'seasons/2026/samples.yaml'
const STAGES = 'seasons/2026/stages.yaml'
const PICKS = 'seasons/2026/picks.yaml'
const CROP = 'seasons/2026/crop.yaml'
const WORK = 'seasons/2026/work.yaml'
const SCOUTING = 'seasons/2026/scouting.yaml'
const BLOCK = 'blocks/river-end.yaml'
const TOW = 'sprayers/tow.yaml'
const QUINOX = 'products/quinox.yaml'
const PICK =
  'block: river-end, weight: 3900 lb, people: 6, hours: 7, brix: 21.9, crates: 150, juice: 290 US gal }\n'

/** Slips in the southern season, each with the finding at its line, whose text holds the last value. */
export const SOUTHERN_SLIPS: readonly [
  file: string,
  from: string,
  to: string,
  name: string,
  level: Level,
  at?: string,
][] = [
  // dates
  [SPRAYS, 'date: 2025-11-03', 'date: 2125-11-03', 'wrong-season', 'error'],
  [SPRAYS, 'date: 2025-11-03', 'date: 2025-03-11', 'wrong-season', 'error'],
  [SPRAYS, 'date: 2025-12-03', 'date: 2026-03-12', 'stage-backwards', 'warning', 'stage: 71'],
  [SAMPLES, 'date: 2026-03-11', 'date: 2025-11-03', 'unlikely-sample', 'warning'],
  [SAMPLES, 'date: 2026-02-18', 'date: 2026-01-18', 'unlikely-sample', 'warning'],
  [STAGES, 'date: 2026-02-10', 'date: 2025-10-02', 'stage-out-of-season', 'warning', '2025-10-02'],
  [SCOUTING, 'date: 2026-01-15', 'date: 2025-08-15', 'unlikely-walk', 'warning'],
  [WORK, 'date: 2025-12-22', 'date: 2025-07-22', 'unlikely-walk', 'warning'],
  [PICKS, 'date: 2026-03-16', 'date: 2026-01-05', 'unlikely-pick', 'warning'],
  ['products/copper.yaml', 'until: 2030-12-31', 'until: 1930-12-31', 'unlikely-product', 'warning'],
  [BLOCK, 'rows: 18', 'planted: 1821\nrows: 18', 'unlikely-block', 'warning', 'planted'],
  // typed twice, once with one field or the day other
  [PICKS, PICK, `${PICK}- { date: 2026-03-17, ${PICK}`, 'entered-twice', 'warning', '2026-03-17'],
  [
    SAMPLES,
    'ta: 8.2 g/L }\n',
    'ta: 8.2 g/L }\n- { date: 2026-03-12, block: river-end, berries: 100, brix: 21.4, ph: 3.20, ta: 8.2 g/L }\n',
    'entered-twice',
    'warning',
    '2026-03-12',
  ],
  [
    CROP,
    'at: lag }\n',
    'at: lag }\n- { date: 2026-01-28, block: river-end, bunches_per_vine: [18, 22, 19, 25], bunch_weight: [1.6 oz, 1.9 oz, 1.8 oz, 2.2 oz], at: lag }\n',
    'entered-twice',
    'warning',
    '2.2 oz',
  ],
  // units
  [SPRAYS, 'temperature: 62 F', 'temperature: 62 C', 'impossible-value', 'error'],
  [SPRAYS, 'temperature: 62 F', 'temperature: 17 F', 'unlikely-spray', 'warning'],
  [SPRAYS, 'water: 47 US gal/acre', 'water: 47 imp gal/acre', 'mixed-units', 'warning'],
  [SPRAYS, 'water: 47 US gal/acre', 'water: 47 L/ha', 'water-outside-label', 'error'],
  [SPRAYS, 'water: 47 US gal/acre', 'water: 47 US gal', 'unlikely-spray', 'warning'],
  [SPRAYS, 'rate: 5 US fl oz/acre', 'rate: 5 imp fl oz/acre', 'mixed-units', 'warning'],
  [SPRAYS, 'rate: 5 US fl oz/acre', 'rate: 5 oz/acre', 'dose-unit', 'error'],
  [SPRAYS, 'sulphur, rate: 4 lb/acre', 'sulphur, rate: 4 kg/ha', 'mixed-units', 'warning'],
  [SPRAYS, 'copper, rate: 1.2 lb/acre', 'copper, rate: 1.2 kg/ha', 'mixed-units', 'warning'],
  [BLOCK, 'row_length: 260 ft', 'row_length: 260 m', 'mixed-units', 'warning'],
  [BLOCK, 'vine_spacing: 4 ft', 'vine_spacing: 1.2 m', 'mixed-units', 'warning'],
  [BLOCK, 'rows: 18', 'area: 0.75 ha\nrows: 18', 'area-disagrees', 'error', 'area'],
  [CROP, '[1.6 oz, 1.9 oz, 1.8 oz, 2.1 oz]', '[1.6 g, 1.9 g, 1.8 g, 2.1 g]', 'unlikely-crop', 'warning'],
  [CROP, '[1.6 oz, 1.9 oz, 1.8 oz, 2.1 oz]', '[45 oz, 55 oz, 51 oz, 60 oz]', 'unlikely-crop', 'warning'],
  [TOW, 'speed: 3 mph', 'speed: 3 km/h', 'unlikely-sprayer', 'warning', 'flow'],
  [TOW, 'flow: 2 US gal/min', 'flow: 3.2 US gal/min', 'unlikely-sprayer', 'warning'],
  [TOW, 'name: Tow-behind', 'name: Backpack', 'unlikely-sprayer', 'warning', 'tank'],
  // figures
  [SPRAYS, 'time: 07:10-08:05', 'time: 07:10-20:05', 'unlikely-spray', 'warning'],
  [SAMPLES, 'ta: 13.1 g/L', 'ta: 8.6 g/L', 'unlikely-sample', 'warning', 'ta: 11.0'],
  [SAMPLES, 'ta: 9.4 g/L', 'ta: 6.1 g/L', 'unlikely-sample', 'warning'],
  [SAMPLES, 'ta: 9.4 g/L', 'ta: 0.94 g/L', 'unlikely-sample', 'warning'],
  [PICKS, 'brix: 21.9', 'brix: 12.9', 'unlikely-pick', 'warning'],
  [PICKS, 'hours: 7', 'hours: 7, rest: 100 %', 'unlikely-pick', 'warning'],
  [SCOUTING, 'severity: 2 %', 'severity: 0 %', 'unlikely-walk', 'warning'],
  [SCOUTING, 'severity: 2 %', 'severity: 20 %', 'unlikely-walk', 'warning'],
  [QUINOX, 'content: 250 g/L', 'content: 2500 g/L', 'impossible-value', 'error'],
  [QUINOX, 'max_per_season: 3', 'max_per_season: 1', 'too-many-applications', 'error', ''],
  ['blocks/gum-row.yaml', 'name: Gum Row', 'name: River End', 'unlikely-block', 'warning', ''],
]
