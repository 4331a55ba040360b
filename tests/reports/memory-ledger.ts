import type { Ledger } from '../../src/ledger/read/ledger.ts'
import { isoDate } from '../../src/records/date.ts'

/** A ledger that was never a folder, of one block with samples only, for simulations that need hundreds of them. */
export function memoryLedger(of: {
  samples: readonly { day: number; brix: number }[]
  season: number
  target?: { low: number; high: number }
}): Ledger {
  const { low, high } = of.target ?? { low: 20, high: 22 }
  const block = {
    id: 'sim',
    name: 'Sim',
    variety: 'any',
    row_spacing: 2,
    vine_spacing: 1,
    area: 1,
    targets: { brix: { low, high, unit: '' } },
  }
  const ledger = {
    root: '/nowhere',
    vineyard: {
      name: 'Simulated',
      latitude: 50,
      timezone: 'Europe/Berlin',
      units: 'metric',
      source: { at: { text: '' } },
    },
    blocks: new Map([['sim', block]]),
    varieties: new Map([['any', { id: 'any', name: 'Any', colour: 'white' }]]),
    products: new Map(),
    sprayers: new Map(),
    ...{ sprays: [], scouting: [], stages: [], crop: [], picks: [], work: [] },
    samples: of.samples.map(({ day, brix }) => ({
      date: isoDate(day),
      block: 'sim',
      berries: 100,
      brix: [brix],
      season: of.season,
    })),
    ...{ seasons: [of.season], weather: [], stations: new Map(), findings: [], files: 0, reader: {} },
  }
  return ledger as unknown as Ledger
}
