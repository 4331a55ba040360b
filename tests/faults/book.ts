import { mkdirSync, rmSync, writeFileSync } from 'node:fs'
import { dirname, join } from 'node:path'
import type { Finding } from '../../src/ledger/read/finding.ts'
import type { Ledger } from '../../src/ledger/read/ledger.ts'
import { openLedger } from '../../src/ledger/read/open.ts'
import { readWeather } from '../../src/ledger/weather/weather.ts'
import { SEASON_KINDS, STANDING_KINDS } from '../../src/records/kinds.ts'
import { judge } from '../../src/rules/index.ts'
import { makeLedger } from '../ledger/make.ts'

/** One entry of every kind and a few rows of weather, beside the small vineyard of `tests/ledger/make.ts`. */
export const ENTRIES: Readonly<Record<string, string>> = {
  'seasons/2026/sprays/2026-06-14-upper.yaml':
    'date: 2026-06-14\ntime: 18:40-20:05\nblocks: [upper]\nsprayer: mounted\nwater: 300 L/ha\nproducts:\n  - { product: sulphur, rate: 3 kg/ha, for: powdery }\nstage: 65\nweather: { wind: 1.8 m/s, from: SW, temperature: 17 C, humidity: 70 % }\noperator: R.\nnote: second side of row 12 missed, went back\n',
  'seasons/2026/scouting.yaml':
    '- date: 2026-07-20\n  block: upper\n  looked_at: { bunches: 100, leaves: 50 }\n  found: { powdery: { bunches: 4, severity: 3 % }, downy: { leaves: 0 } }\n',
  'seasons/2026/samples.yaml':
    '- { date: 2026-09-02, block: upper, berries: 100, brix: 17.6, ph: 3.02, ta: 10.4 g/L }\n- { date: 2026-09-10, block: upper, berries: 100, brix: [18.2, 19.0, 20.4, 18.8], temperature: 22 C }\n',
  'seasons/2026/stages.yaml': '- { date: 2026-08-21, block: upper, stage: 81, share: 10 % }\n',
  'seasons/2026/crop.yaml':
    '- { date: 2026-08-05, block: upper, bunches_per_vine: [18, 22, 19, 25], bunch_weight: [48 g, 55 g, 51 g], at: lag }\n',
  'seasons/2026/picks.yaml':
    '- { date: 2026-09-29, block: upper, weight: 1820 kg, people: 6, hours: 5.5, brix: 20.8 }\n',
  'seasons/2026/work.yaml': '- { date: 2026-03-02, block: upper, job: pruning, hours: 12 }\n',
  'seasons/2026/weather.csv':
    'time,temperature_c,humidity_pct,rain_mm,wetness_min,wind_ms\n2026-06-14T17:00,17.2,70,0,0,1.8\n2026-06-14T18:00,16.8,74,0.2,20,1.5\n2026-06-14T19:00,16.1,80,0,60,1.2\n',
}

export const AS_OF = '2026-10-05'

/** A small ledger with one entry of every kind. */
export const smallBook = (files: Readonly<Record<string, string | null>> = {}): string =>
  makeLedger({ ...ENTRIES, ...files })

export interface Looked {
  ledger: Ledger
  /** Findings of reading, of the rules and of the weather files. */
  findings: Finding[]
  records: number
}

/** Opens a ledger, runs every rule and reads every weather file, as `check` does. */
export function lookAt(root: string, asOf = AS_OF): Looked {
  const ledger = openLedger(root, { seasons: 'all' })
  const ruled = judge({ ledger, asOf, seasons: new Set(ledger.seasons) })
  const weather = ledger.seasons.flatMap((season) => readWeather(ledger, season).findings)
  const records =
    STANDING_KINDS.reduce((sum, kind) => sum + ledger[kind].size, 0) +
    SEASON_KINDS.reduce((sum, kind) => sum + ledger[kind].length, 0)
  return { ledger, findings: [...ledger.findings, ...ruled, ...weather], records }
}

/** Puts a file's bytes into a ledger. */
export function put(root: string, file: string, bytes: string | Uint8Array): void {
  mkdirSync(dirname(join(root, file)), { recursive: true })
  writeFileSync(join(root, file), bytes)
}

export const takeOut = (root: string, file: string): void => rmSync(join(root, file), { force: true })

/** Whether a finding points at a place inside its file. */
export function isInside({ line, column }: Finding, text: string): boolean {
  const lines = text.split('\n')
  return line >= 1 && line <= lines.length && column >= 1 && column <= [...lines[line - 1]!].length + 1
}
