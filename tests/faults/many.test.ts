import { writeFileSync } from 'node:fs'
import { join } from 'node:path'
import { describe, expect, test } from 'vitest'
import { words } from '../../src/render/columns.ts'
import { renderTable } from '../../src/render/table.ts'
import { ledgerCopy } from '../commands/run.ts'
import { runHere } from './in-process.ts'
import { times } from './size.ts'

// Thousands of entries of each kind in one season of the example, more than any grower has; invented.

const BLOCKS = ['top-terrace', 'brook-rows', 'gate-field', 'kiln-bank']
const STAGES = [9, 11, 13, 15, 53, 57, 61, 65, 69, 71, 73, 75, 77, 79, 81, 83, 85]
const SEASON_DAYS = 170

/** The entry of a kind with this number, at this share of the season. */
const KINDS: Readonly<Record<string, (at: number, share: number) => string>> = {
  work: (at) => `job: job ${at % 9}, hours: ${(at % 7) + 1}`,
  stages: (_, share) => `stage: ${STAGES[Math.floor(STAGES.length * share)]}`,
  scouting: (at) => `looked_at: { leaves: 50 }, found: { downy: { leaves: ${at % 40} } }`,
  samples: (at, share) =>
    `brix: ${(5 + 15 * share + (at % 7) / 10).toFixed(1)}, ta: ${(20 - 12 * share).toFixed(1)} g/L, berry_weight: 1.${at % 9} g`,
  picks: (at) => `weight: ${(at % 500) + 100} kg`,
  sprays: (at) =>
    `water: 300 L/ha, products: [ { product: sulphur-80, rate: ${(at % 3) + 2} kg/ha, for: powdery } ]`,
  crop: (at) => `bunches_per_vine: [${(at % 20) + 5}], at: lag`,
}

function withEntries(count: number): string {
  const root = ledgerCopy()
  for (const [kind, fields] of Object.entries(KINDS)) {
    const lines = Array.from({ length: count }, (_, at) => {
      const share = at / count
      const date = new Date(Date.UTC(2026, 2, 20 + Math.floor(SEASON_DAYS * share)))
        .toISOString()
        .slice(0, 10)
      const block = BLOCKS[at % BLOCKS.length]
      const where = kind === 'sprays' ? `blocks: [${block}]` : `block: ${block}`
      return `- { date: ${date}, ${where}, ${fields(at, share)} }\n`
    })
    writeFileSync(join(root, `seasons/2026/${kind}.yaml`), lines.join(''))
  }
  return root
}

/** Seconds of processor time of a command. */
async function seconds(command: string, root: string): Promise<number> {
  const before = process.cpuUsage()
  const all = command === 'ready' ? ['--all'] : []
  const ran = await runHere([command, ...all, '--ledger', root, '--as-of', '2026-09-14'])
  const { user, system } = process.cpuUsage(before)
  expect(ran.status).toBeLessThan(2)
  expect(ran.out).not.toContain('No figure is given')
  expect(ran.out.length).toBeGreaterThan(200)
  return (user + system) / 1e6
}

/** The most time that twice as many may take, allowing for sorting and a busy machine. */
const DOUBLE = 2.6

describe('H6: each time the entries of one season double, a command takes at most 2.6 times as long', () => {
  const count = times(500, 3000)
  const few = withEntries(count)
  const many = withEntries(4 * count)
  const COMMANDS = ['check', 'cover', 'today', 'ready', 'totals', 'diary', 'scouting', 'ripeness', 'pressure']

  test.each(COMMANDS)('%s', { timeout: 600_000 }, async (command) => {
    const ratios: number[] = []
    // A busy machine may be slow once, but not three times.
    while (ratios.length < 3 && !ratios.some((ratio) => ratio < DOUBLE ** 2)) {
      const once = await seconds(command, few)
      ratios.push((await seconds(command, many)) / Math.max(once, 0.1))
    }
    expect(Math.min(...ratios)).toBeLessThan(DOUBLE ** 2)
  })

  test('a table of as many rows', () => {
    const columns = Array.from({ length: 8 }, (_, at) => words(`column ${at}`, (row: number) => row * at))
    const cost = (rows: number) => {
      const before = process.cpuUsage()
      renderTable([...Array(rows).keys()], columns, 80)
      return process.cpuUsage(before).user
    }
    cost(500)
    expect(cost(8000) / cost(2000)).toBeLessThan(DOUBLE ** 2)
  })
})
