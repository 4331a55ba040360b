import { mkdirSync, mkdtempSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { dirname, join } from 'node:path'

/** The standing records of a small invented vineyard, for tests that need a ledger. */
export const SITE: Readonly<Record<string, string>> = {
  'vineyard.yaml': 'name: Test Rows\nlatitude: 51.5\nlongitude: 7.1\ntimezone: Europe/Berlin\n',
  'blocks/upper.yaml':
    'name: Upper\nvariety: palava\nrows: 20\nrow_length: 100 m\nrow_spacing: 2 m\nvine_spacing: 1 m\nmissing: 20\ncanopy: { height: 1.2 m, width: 0.5 m }\ntargets: { brix: 20-22, ta: 7-9 g/L, ph: 3.0-3.3 }\n',
  'blocks/lower.yaml':
    'name: Lower\nvariety: palava\nrows: 10\nrow_length: 50 m\nrow_spacing: 2 m\nvine_spacing: 1 m\n',
  'varieties/palava.yaml':
    'name: Palava\ncolour: white\nsusceptibility: { powdery: high, downy: medium, botrytis: medium }\ntargets: { brix: 19-21 }\nafter_veraison: 35-55 d\n',
  'products/sulphur.yaml':
    'name: Test sulphur\nform: WG\nkind: fungicide\nactives: [ { name: sulphur, content: 800 g/kg, group: M02 } ]\nauthorisation: { number: T-1, until: 2029-12-31 }\nuses:\n  - { against: powdery, rate: 2-6 kg/ha, interval: 7-14 d }\nwater: 150-1000 L/ha\nbefore_harvest: 21 d\nre_entry: 24 h\nmax_per_season: 8\nprotects: 10 d\nrain: { fast: 2 h, washed_off: 25 mm }\nstock: 100 kg\nlabel: placeholder, 2026-01\n',
  'products/copper.yaml':
    'name: Test copper\nform: WG\nkind: fungicide\nactives: [ { name: copper, content: 350 g/kg, group: M01 } ]\nauthorisation: { number: T-2, until: 2029-12-31 }\nuses:\n  - { against: downy, rate: 0.5-2 kg/ha, interval: 7-14 d }\nwater: 150-1000 L/ha\nbefore_harvest: 21 d\nre_entry: 24 h\nmax_per_season: 5\nprotects: 10 d\nrain: { fast: 2 h, washed_off: 25 mm }\nstock: 100 kg\nlabel: placeholder, 2026-01\n',
  'sprayers/mounted.yaml':
    'name: Mounted\ntank: 200 L\nflow: 5.5 L/min\ncalibrated: 2026-04-01\nspeed: 5 km/h\n',
}

/** Writes a ledger into a new folder: the small vineyard, with these files added or in place of its own. */
export function makeLedger(files: Readonly<Record<string, string | null>> = {}): string {
  const root = mkdtempSync(join(tmpdir(), 'rowbook-ledger-'))
  for (const [file, text] of Object.entries({ ...SITE, ...files })) {
    if (text === null) continue
    mkdirSync(dirname(join(root, file)), { recursive: true })
    writeFileSync(join(root, file), text)
  }
  return root
}
