// One sound season of an invented vineyard in the south, in US units.

/** The files of the season, up to May 2026. */
export const SOUTHERN: Readonly<Record<string, string>> = {
  'vineyard.yaml': `name: Flat Stone
latitude: -41.5
longitude: 173.9
timezone: Pacific/Auckland
units: us
limits:
  copper: { per_season: 3.5 lb/acre, rolling: 25 lb/acre, years: 7 }
  wind: 10 mph
harvest: { picking: 90 lb/h, crate: 26 lb, juice: 150 US gal/US ton }
`,
  'blocks/gum-row.yaml': `name: Gum Row
variety: riesling
rows: 10
row_length: 200 ft
row_spacing: 7 ft
vine_spacing: 4 ft
targets: { brix: 19-21 }
`,
  'blocks/river-end.yaml': `name: River End
variety: pinot
rows: 18
row_length: 260 ft
row_spacing: 7 ft
vine_spacing: 4 ft
missing: 12
canopy: { height: 4 ft, width: 1.7 ft }
targets: { brix: 21-23, ta: 6.5-8.5 g/L, ph: 3.1-3.4 }
`,
  'products/copper.yaml': `name: Stone Copper
form: WG
kind: fungicide
actives: [ { name: copper, content: 35 %, group: M01 } ]
authorisation: { number: X-2, until: 2030-12-31 }
uses:
  - { against: downy, rate: 0.6-1.4 lb/acre, interval: 7-14 d }
water: 20-100 US gal/acre
before_harvest: 21 d
re_entry: 48 h
max_per_season: 8
protects: 10 d
`,
  'products/quinox.yaml': `name: Stone Quinox
form: SC
kind: fungicide
actives: [ { name: testoxyfen, content: 250 g/L, group: "13" } ]
authorisation: { number: X-3, until: 2030-12-31 }
uses:
  - { against: powdery, rate: 3-6.5 US fl oz/acre, interval: 14-21 d }
water: 20-100 US gal/acre
before_harvest: 14 d
re_entry: 12 h
max_per_season: 3
`,
  'products/sulphur.yaml': `name: Stone Sulphur
form: WG
kind: fungicide
actives: [ { name: sulphur, content: 80 %, group: M02 } ]
authorisation: { number: X-1, until: 2030-12-31 }
uses:
  - { against: powdery, rate: 2-6 lb/acre, interval: 7-14 d }
water: 20-100 US gal/acre
before_harvest: 21 d
re_entry: 24 h
max_per_season: 10
protects: 10 d
`,
  'seasons/2026/crop.yaml': `- { date: 2026-01-28, block: river-end, bunches_per_vine: [18, 22, 19, 25], bunch_weight: [1.6 oz, 1.9 oz, 1.8 oz, 2.1 oz], at: lag }
`,
  'seasons/2026/picks.yaml': `- { date: 2026-03-16, block: river-end, weight: 3900 lb, people: 6, hours: 7, brix: 21.9, crates: 150, juice: 290 US gal }
`,
  'seasons/2026/samples.yaml': `- { date: 2026-02-18, block: river-end, berries: 100, brix: 16.2, ph: 2.92, ta: 13.1 g/L }
- { date: 2026-02-25, block: river-end, berries: 100, brix: 18.1, ph: 3.01, ta: 11.0 g/L }
- { date: 2026-03-04, block: river-end, berries: 100, brix: [19.2, 20.0, 20.4, 19.6], ph: 3.10, ta: 9.4 g/L }
- { date: 2026-03-11, block: river-end, berries: 100, brix: 21.4, ph: 3.20, ta: 8.2 g/L }
`,
  'seasons/2026/scouting.yaml': `- { date: 2026-01-15, block: river-end, looked_at: { bunches: 100, leaves: 50 }, found: { powdery: { bunches: 4, severity: 2 % }, downy: { leaves: 1 } } }
`,
  'seasons/2026/sprays.yaml': `- date: 2025-10-20
  time: 07:10-08:05
  blocks: [river-end]
  sprayer: tow
  water: 47 US gal/acre
  products:
    - { product: sulphur, rate: 3 lb/acre, for: powdery }
    - { product: copper, rate: 1 lb/acre, for: downy }
  stage: 53
  weather: { wind: 4 mph, from: NW, temperature: 62 F, humidity: 60 % }
  operator: K.
- date: 2025-11-03
  time: 07:10-08:05
  blocks: [river-end]
  sprayer: tow
  water: 47 US gal/acre
  products:
    - { product: sulphur, rate: 4 lb/acre, for: powdery }
    - { product: copper, rate: 1 lb/acre, for: downy }
  stage: 57
  weather: { wind: 4 mph, from: NW, temperature: 62 F, humidity: 60 % }
  operator: K.
- date: 2025-11-17
  time: 07:10-08:05
  blocks: [river-end]
  sprayer: tow
  water: 47 US gal/acre
  products:
    - { product: quinox, rate: 5 US fl oz/acre, for: powdery }
    - { product: copper, rate: 1.2 lb/acre, for: downy }
  stage: 61
  weather: { wind: 4 mph, from: NW, temperature: 62 F, humidity: 60 % }
  operator: K.
- date: 2025-12-03
  time: 07:10-08:05
  blocks: [river-end]
  sprayer: tow
  water: 47 US gal/acre
  products:
    - { product: sulphur, rate: 4 lb/acre, for: powdery }
    - { product: copper, rate: 1.2 lb/acre, for: downy }
  stage: 71
  weather: { wind: 4 mph, from: NW, temperature: 62 F, humidity: 60 % }
  operator: K.
- date: 2025-12-16
  time: 07:10-08:05
  blocks: [river-end]
  sprayer: tow
  water: 47 US gal/acre
  products:
    - { product: quinox, rate: 6 US fl oz/acre, for: powdery }
  stage: 75
  weather: { wind: 4 mph, from: NW, temperature: 62 F, humidity: 60 % }
  operator: K.
`,
  'seasons/2026/stages.yaml': `- { date: 2025-09-28, block: river-end, stage: 9 }
- { date: 2025-11-28, block: river-end, stage: 65 }
- { date: 2026-01-30, block: river-end, stage: 81, share: 10 % }
- { date: 2026-02-10, block: river-end, stage: 83 }
`,
  'seasons/2026/work.yaml': `- { date: 2025-12-22, time: 09:00-12:00, block: river-end, job: leaf removal, hours: 6, people: 2 }
`,
  'sprayers/tow.yaml': `name: Tow-behind
tank: 100 US gal
flow: 2 US gal/min
calibrated: 2025-09-10
speed: 3 mph
rows_per_pass: 1
`,
  'varieties/pinot.yaml': `name: Pinot noir
colour: red
susceptibility: { powdery: medium, downy: medium, botrytis: high }
targets: { brix: 21-23 }
`,
  'varieties/riesling.yaml': `name: Riesling
colour: white
susceptibility: { powdery: medium, downy: medium, botrytis: high }
targets: { brix: 19-21 }
`,
}
