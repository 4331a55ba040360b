import { cpSync, mkdtempSync, readFileSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { expect, test } from 'vitest'
import { run } from './run.ts'

const METRIC = /°C|\d mm\b|kg\/ha|L\/ha|\d ha\b|\d kg\b|\d L\b|km\/h|\d m2\b|\d m\/s/

const REPORTS = [
  ['window'],
  ['harvest'],
  ['ripeness'],
  ['crop'],
  ['heat'],
  ['label'],
  ['totals'],
  ['compare', '2025', '2026'],
]

test.each(['us', 'imperial'])('a book with units: %s prints no metric unit, in 80 columns', (units) => {
  const ledger = join(mkdtempSync(join(tmpdir(), 'own-units-')), 'ledger')
  cpSync('examples/far-quillet', ledger, { recursive: true })
  const site = join(ledger, 'vineyard.yaml')
  writeFileSync(site, readFileSync(site, 'utf8').replace('units: metric', `units: ${units}`))
  for (const report of REPORTS) {
    const { stdout } = run([...report, '--ledger', ledger, '--as-of', '2026-09-14'])
    const lines = stdout.split('\n')
    expect([report, lines.length > 5]).toEqual([report, true])
    expect([report, lines.filter((line) => METRIC.test(line) || [...line].length > 80)]).toEqual([report, []])
  }
})
