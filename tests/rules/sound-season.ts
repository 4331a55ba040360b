import { judge } from '../../src/rules/index.ts'
import { ledgerOf } from '../ledger/in-memory.ts'
import { SITE } from '../ledger/make.ts'

// One sound season of an invented vineyard.

export const SPRAYS = 'seasons/2026/sprays.yaml'
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

/** The files of the sound season. */
export const FILES: Readonly<Record<string, string>> = { ...SITE, ...BASE }

/** What reading and every rule find in a ledger of these files. */
export function findings(files: Readonly<Record<string, string>>, asOf = '2026-10-20') {
  const ledger = ledgerOf(files)
  return [...ledger.findings, ...judge({ ledger, asOf, seasons: new Set(ledger.seasons) })]
}
